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
  const said =
    label === undefined
      ? { 'aria-hidden': true }
      : { role: 'img', 'aria-label': `${label}, ${seatShapeName(position)}` };
  return (
    <svg width={size} height={size} viewBox="-10 -10 20 20" style={{ flex: 'none', verticalAlign: '-0.2em' }} {...said}>
      <SeatShapeMark position={position} cx={0} cy={0} radius={8} filled={filled} />
    </svg>
  );
}

/** Outlines in a box from -1 to 1, one for each place at the panel: told apart by form alone. */
const outlines: readonly { readonly name: string; readonly path: string }[] = [
  { name: 'circle', path: 'M-.9 0a.9 .9 0 1 0 1.8 0a.9 .9 0 1 0 -1.8 0Z' },
  { name: 'square', path: 'M-.8 -.8H.8V.8H-.8Z' },
  { name: 'triangle', path: 'M0 -.95L.98 .75H-.98Z' },
  { name: 'diamond', path: 'M0 -1.1L1.1 0L0 1.1L-1.1 0Z' },
  { name: 'plus', path: 'M-.35 -.95H.35V-.35H.95V.35H.35V.95H-.35V.35H-.95V-.35H-.35Z' },
  { name: 'pentagon', path: 'M0 -1L.95 -.31L.59 .81H-.59L-.95 -.31Z' },
  { name: 'triangle pointing down', path: 'M0 .95L.98 -.75H-.98Z' },
  { name: 'cross', path: 'M-.5 -1L0 -.5L.5 -1L1 -.5L.5 0L1 .5L.5 1L0 .5L-.5 1L-1 .5L-.5 0L-1 -.5Z' },
  { name: 'half circle', path: 'M-1 .5a1 1 0 0 1 2 0Z' },
  { name: 'lying bar', path: 'M-1.1 -.42H1.1V.42H-1.1Z' },
  { name: 'standing bar', path: 'M-.42 -1.1H.42V1.1H-.42Z' },
  { name: 'arrow head', path: 'M-.6 -1L1 0L-.6 1L-.15 0Z' },
];

type Outline = { readonly name: string; readonly path: string; readonly dotted: boolean };

/** From the thirteenth seat on the shapes return with a dot inside. */
function outlineAt(position: number): Outline {
  const shape = outlines[position % outlines.length] ?? { name: 'circle', path: '' };
  const dotted = position >= outlines.length;
  return { ...shape, name: dotted ? `${shape.name} with a dot` : shape.name, dotted };
}

/** The word for a seat's shape. */
function seatShapeName(position: number): string {
  return outlineAt(position).name;
}

type MarkProps = {
  /** The seat's place at the panel, from 0. */
  readonly position: number;
  readonly cx: number;
  readonly cy: number;
  /** Half the width in the units of the picture. */
  readonly radius: number;
  readonly filled?: boolean;
};

/** A seat's shape inside a larger SVG. Ink outline on the sheet's colour, or filled with ink. */
export function SeatShapeMark({ position, cx, cy, radius, filled = false }: MarkProps) {
  const { path, dotted } = outlineAt(position);
  return (
    <g transform={`translate(${cx} ${cy}) scale(${radius})`}>
      <path
        d={path}
        fill={filled ? 'var(--ink)' : 'var(--sheet)'}
        stroke="var(--ink)"
        strokeWidth={2}
        strokeLinejoin="round"
        vectorEffect="non-scaling-stroke"
      />
      {dotted ? <circle r={0.25} fill={filled ? 'var(--sheet)' : 'var(--ink)'} /> : null}
    </g>
  );
}
