import { scaleLinear } from 'd3-scale';
import type { BoardView } from '#lib/contract/boardView';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { readings } from '#lib/reconcile/sentences/readings';
import { CollarChip } from './CollarChip';
import styles from './MeritPicture.module.css';
import { collarWords } from './textWords';

type BoardMerit = BoardView['purposes'][number]['merit'][number];

type MeritPictureProps = {
  /** Best first. */
  readonly merit: readonly BoardMerit[];
  readonly puppyOf: (id: string) => PuppyFace | undefined;
  /** The finding, for those who do not see the picture. */
  readonly label: string;
};

/** Who stands where: dot the estimate, thick bar half of the readings, line 90 of 100, small open triangle the plain mean. */
export function MeritPicture({ merit, puppyOf, label }: MeritPictureProps) {
  const axis = meritAxis(merit);
  return (
    <figure className={styles.figure}>
      <div role="img" aria-label={label} className="stack">
        <p className={`small ${styles.heads}`}>first in</p>
        {merit.map((one) => (
          <div key={one.puppy} className={styles.row}>
            <PuppyWords puppy={puppyOf(one.puppy)} />
            <span className={`figures tone-soft ${styles.first}`}>
              <b>{readings(one.ranks[0] ?? 0)}</b> of 100
            </span>
            <MeritPictureRow merit={one} axis={axis} />
          </div>
        ))}
        <AxisLine axis={axis} />
      </div>
      <figcaption className={`small ${styles.key}`}>
        <Key />
      </figcaption>
    </figure>
  );
}

function PuppyWords({ puppy }: { readonly puppy: PuppyFace | undefined }) {
  if (!puppy) return <span className={`row gap-10 ${styles.name}`}>no longer listed</span>;
  return (
    <span className={`row gap-10 ${styles.name}`}>
      <CollarChip collar={puppy.collar} size={20} words={false} />
      <span>
        <b className={styles.puppy}>{puppy.name}</b>{' '}
        <span className="small">
          {collarWords(puppy.collar)}
          <span className={styles.sex}>, {puppy.sex}</span>
        </span>
      </span>
    </span>
  );
}

function AxisLine({ axis }: { readonly axis: MeritAxis }) {
  return (
    <div className={`figures small ${styles.axis}`}>
      {axis.ticks.map(({ value, words }) => (
        <span key={value} className={value === 0 ? styles.mean : styles.tick} style={{ left: `${axis.at(value)}%` }}>
          {words}
        </span>
      ))}
    </div>
  );
}

function Key() {
  return (
    <ul className={`list wrap ${styles.marksKey}`}>
      <li>
        <svg width="18" height="14" aria-hidden="true">
          <circle cx="9" cy="7" r="5" className={styles.dot} />
        </svg>
        estimate
      </li>
      <li>
        <svg width="28" height="14" aria-hidden="true">
          <line x1="4" x2="24" y1="7" y2="7" className={styles.half} />
        </svg>
        half of the readings
      </li>
      <li>
        <svg width="34" height="14" aria-hidden="true">
          <line x1="1" x2="33" y1="7" y2="7" className={styles.whole} />
        </svg>
        90 of 100 readings
      </li>
      <li>
        <svg width="18" height="14" aria-hidden="true">
          <path d="M9 2l5 9h-10z" className={styles.plain} />
        </svg>
        the plain mean
      </li>
      <li>points above and below the litter mean; “first in” counts readings of these scores</li>
    </ul>
  );
}

/** One puppy's line of the picture. Widths are per cent, so that marks and text keep their size on any screen. */
function MeritPictureRow({ merit, axis }: { readonly merit: BoardMerit; readonly axis: MeritAxis }) {
  const x = (points: number) => `${axis.at(points)}%`;
  return (
    <svg className={styles.plot} aria-hidden="true">
      {axis.ticks.map(({ value }) => (
        <line
          key={value}
          x1={x(value)}
          x2={x(value)}
          y1="0"
          y2="100%"
          className={value === 0 ? styles.zero : styles.grid}
        />
      ))}
      <line x1={x(merit.low)} x2={x(merit.high)} y1="15" y2="15" className={styles.whole} />
      <line x1={x(merit.halfLow)} x2={x(merit.halfHigh)} y1="15" y2="15" className={styles.half} />
      <circle cx={x(merit.estimate)} cy="15" r="5.5" className={styles.dot} />
      {merit.mean === null ? null : (
        <svg x={x(merit.mean)} y="26" className={styles.mark}>
          <path d="M0 0l5 9h-10z" className={styles.plain} />
        </svg>
      )}
    </svg>
  );
}

type Placed = Pick<BoardView['purposes'][number]['merit'][number], 'low' | 'high' | 'mean'>;

type MeritAxis = {
  /** Per cent of the width, 0 to 100, for a merit in points. */
  at(points: number): number;
  readonly ticks: readonly { readonly value: number; readonly words: string }[];
};

/** Room at both ends, in per cent, for a mark or a label that stands on the last tick. */
const MARGIN = 5;
const ABOUT_TICKS = 4;

/** One axis for all rows, in points from the litter mean, wide enough for every interval and every plain mean. */
function meritAxis(merit: readonly Placed[]): MeritAxis {
  const ends = merit.flatMap(({ low, high, mean }) => (mean === null ? [low, high] : [low, high, mean]));
  const scale = scaleLinear()
    .domain([Math.min(-0.5, ...ends), Math.max(0.5, ...ends)])
    .nice(ABOUT_TICKS)
    .range([MARGIN, 100 - MARGIN]);
  return {
    at: (points) => scale(points),
    ticks: scale.ticks(ABOUT_TICKS).map((value) => ({ value, words: tickWords(value) })),
  };
}

function tickWords(value: number): string {
  if (value === 0) return 'litter mean';
  return value > 0 ? `+${value}` : `−${Math.abs(value)}`;
}
