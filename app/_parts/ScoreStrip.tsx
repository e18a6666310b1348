import { scalePoint } from 'd3-scale';
import { counted } from './textWords';
import { SeatShapeMark } from './SeatShape';
import styles from './ScoreStrip.module.css';

export type StripScale = {
  readonly low: number;
  readonly high: number;
  /** Signed degrees, 0 as asked. */
  readonly twoSided: boolean;
  /** Words at the two ends. */
  readonly ends: readonly [string, string];
};

export type StripDot = {
  readonly seat: string;
  readonly position: number;
  readonly label: string;
  readonly value: number;
};

type ScoreStripProps = {
  readonly scale: StripScale;
  readonly dots: readonly StripDot[];
  /** Seats that answered "cannot judge". */
  readonly cannotJudge: readonly { readonly label: string; readonly position: number }[];
  /** What is shown: "Fern, forechest". The scores follow by themselves. */
  readonly subject: string;
  /** Pixels from end to end. */
  readonly width?: number;
  /** An anonymous panel: the label counts seats and names none; the marks are all alike. */
  readonly countsOnly?: boolean;
  /** Equal scores there is room for, so that strips side by side are of one height. */
  readonly room?: number;
};

const RADIUS = 6;
const APART = 15;
const EDGE = 22;

/** Every seat's score on one scale, a shape a seat; equal scores stand side by side, then on one another, so that none hides another. */
export function ScoreStrip({
  scale,
  dots,
  cannotJudge,
  subject,
  width = 300,
  room = 1,
  countsOnly = false,
}: ScoreStripProps) {
  const steps = Array.from({ length: scale.high - scale.low + 1 }, (_, at) => scale.low + at);
  const x = scalePoint<number>()
    .domain(steps)
    .range([EDGE, width - EDGE]);
  const at = (value: number) => x(value) ?? EDGE;
  const abreast = Math.max(1, Math.floor(x.step() / APART));
  const rows = Math.ceil(Math.max(room, mostAlike(dots)) / abreast);
  const floor = rows * APART - APART / 2 + 1;
  return (
    <svg
      width={width}
      height={floor + 41}
      viewBox={`0 0 ${width} ${floor + 41}`}
      role="img"
      aria-label={stripLabel({ scale, dots, cannotJudge, subject, countsOnly })}
      className={styles.strip}
    >
      <line x1={at(scale.low)} x2={at(scale.high)} y1={floor + 9} y2={floor + 9} className={styles.line} />
      {steps.map((step) => (
        <g key={step}>
          <line x1={at(step)} x2={at(step)} y1={floor + 6} y2={floor + 9} className={styles.line} />
          <text
            x={at(step)}
            y={floor + 22}
            textAnchor="middle"
            className={step === 0 && scale.twoSided ? styles.asked : styles.step}
          >
            {stepWords(step, scale.twoSided)}
          </text>
        </g>
      ))}
      <text x={2} y={floor + 36} className={styles.end}>
        {scale.ends[0]}
      </text>
      <text x={width - 2} y={floor + 36} textAnchor="end" className={styles.end}>
        {scale.ends[1]}
      </text>
      {dots.map((dot, order) => {
        const before = alike(dots.slice(0, order), dot.value);
        const row = Math.floor(before / abreast);
        const inRow = Math.min(abreast, alike(dots, dot.value) - row * abreast);
        const aside = ((before % abreast) - (inRow - 1) / 2) * APART;
        return (
          <SeatShapeMark
            key={dot.seat}
            position={dot.position}
            cx={at(dot.value) + aside}
            cy={floor - row * APART}
            radius={RADIUS}
          />
        );
      })}
    </svg>
  );
}

function alike(dots: readonly StripDot[], value: number): number {
  return dots.filter((dot) => dot.value === value).length;
}

function mostAlike(dots: readonly StripDot[]): number {
  return Math.max(1, ...dots.map(({ value }) => alike(dots, value)));
}

function stepWords(step: number, twoSided: boolean): string {
  if (!twoSided) return String(step);
  if (step === 0) return '0';
  return step > 0 ? `+${step}` : `−${-step}`;
}

type Labelled = Pick<ScoreStripProps, 'scale' | 'dots' | 'cannotJudge' | 'subject'> & { readonly countsOnly: boolean };

function countLabels({ scale, dots, cannotJudge }: Labelled): string[] {
  const values = [...new Set(dots.map(({ value }) => value))].toSorted((one, other) => one - other);
  const given = values.map((value) => `${stepWords(value, scale.twoSided)} by ${counted(alike(dots, value), 'seat')}`);
  return cannotJudge.length === 0 ? given : [...given, `${counted(cannotJudge.length, 'seat')} cannot judge`];
}

function stripLabel({ countsOnly, ...strip }: Labelled): string {
  const { scale, dots, cannotJudge, subject } = strip;
  const given = dots.map(({ label, value }) => `${label} ${stepWords(value, scale.twoSided)}`);
  const without = cannotJudge.map(({ label }) => `${label} cannot judge`);
  const said = countsOnly ? countLabels({ ...strip, countsOnly }) : [...given, ...without];
  return `${subject}: ${said.length === 0 ? 'no scores' : said.join(', ')}. From ${scale.ends[0]} to ${scale.ends[1]}.`;
}
