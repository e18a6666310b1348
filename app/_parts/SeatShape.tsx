import { SeatShapeMark, seatShapeName } from './SeatShapeMark';

type Props = {
  /** The seat's place at the panel, from 0. */
  readonly position: number;
  /** Size in pixels. */
  readonly size?: number;
  readonly filled?: boolean;
  /** Said aloud instead of the shape's name; leave out where the seat's label stands beside it. */
  readonly label?: string;
};

/** The shape that stands for a seat, as a small picture of its own. Silent to readers unless a label is given. */
export function SeatShape({ position, size = 18, filled = false, label }: Props) {
  const said = label === undefined ? { 'aria-hidden': true } : { role: 'img', 'aria-label': `${label}, ${seatShapeName(position)}` };
  return (
    <svg width={size} height={size} viewBox="-10 -10 20 20" style={{ flex: 'none', verticalAlign: '-0.2em' }} {...said}>
      <SeatShapeMark position={position} cx={0} cy={0} radius={8} filled={filled} />
    </svg>
  );
}
