import type { Collar } from '#lib/contract/collar';
import { collarColour } from './collarColour';

type Props = { readonly collar: Collar; readonly cx: number; readonly cy: number; readonly radius: number };

/** A collar's swatch inside a larger SVG; no collar is a broken ring. The word stands beside it. */
export function CollarMark({ collar, cx, cy, radius }: Props) {
  return (
    <circle
      cx={cx}
      cy={cy}
      r={radius}
      fill={collarColour[collar]}
      stroke="var(--ink)"
      strokeWidth={2}
      strokeDasharray={collar === 'none' ? '4 3' : undefined}
    />
  );
}
