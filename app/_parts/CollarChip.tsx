import type { Collar } from '#lib/contract/collar';
import styles from './CollarChip.module.css';
import { collarWords } from './textWords';

type Props = {
  readonly collar: Collar;
  /** Swatch size in pixels. */
  readonly size?: number;
  /** Leave the words out only where they stand beside it already. */
  readonly words?: boolean;
};

/** A collar as a swatch and in words. */
export function CollarChip({ collar, size = 16, words = true }: Props) {
  return (
    <span className={styles.chip}>
      <svg width={size} height={size} viewBox={`0 0 ${size} ${size}`} aria-hidden="true" className={styles.swatch}>
        <CollarMark collar={collar} cx={size / 2} cy={size / 2} radius={size / 2 - 1.5} />
      </svg>
      {words && collarWords(collar)}
    </span>
  );
}

type CollarMarkProps = { readonly collar: Collar; readonly cx: number; readonly cy: number; readonly radius: number };

/** A collar's swatch inside a larger SVG; no collar is a broken ring. The word stands beside it. */
export function CollarMark({ collar, cx, cy, radius }: CollarMarkProps) {
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

/**
 * The colour of a real collar, whatever the theme: identity only, never a status, and never without its word.
 * Drawn with an outline of ink, since some are close to the paper.
 */
export const collarColour: Readonly<Record<Collar, string>> = {
  blue: '#2f6fb0',
  amber: '#c98f1e',
  red: '#b3312f',
  green: '#3a7d44',
  white: '#ffffff',
  purple: '#7d3c98',
  black: '#1b1b1b',
  pink: '#e58fb0',
  brown: '#7a5334',
  orange: '#e0772a',
  yellow: '#f0d43a',
  grey: '#8e8e8e',
  turquoise: '#2bb3b1',
  none: 'none',
};
