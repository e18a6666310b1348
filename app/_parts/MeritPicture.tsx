import type { BoardView } from '#lib/contract/boardView';
import type { PuppyFace } from '#lib/contract/evaluationView';
import { readings } from '#lib/reconcile/sentences/readings';
import { CollarChip } from './CollarChip';
import { collarWords } from './collarWords';
import { meritAxis, type MeritAxis } from './MeritPictureAxis';
import styles from './MeritPicture.module.css';
import { MeritPictureRow } from './MeritPictureRow';

export type BoardMerit = BoardView['purposes'][number]['merit'][number];

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
      <div role="img" aria-label={label} className={styles.picture}>
        <p className={styles.heads}>first in</p>
        {merit.map((one) => (
          <div key={one.puppy} className={styles.row}>
            <PuppyWords puppy={puppyOf(one.puppy)} />
            <span className={`figures ${styles.first}`}>
              <b>{readings(one.ranks[0] ?? 0)}</b> of 100
            </span>
            <MeritPictureRow merit={one} axis={axis} />
          </div>
        ))}
        <AxisLine axis={axis} />
      </div>
      <figcaption className={styles.key}>
        <Key />
      </figcaption>
    </figure>
  );
}

function PuppyWords({ puppy }: { readonly puppy: PuppyFace | undefined }) {
  if (!puppy) return <span className={styles.name}>no longer listed</span>;
  return (
    <span className={styles.name}>
      <CollarChip collar={puppy.collar} size={20} words={false} />
      <span>
        <b className={styles.puppy}>{puppy.name}</b> <span className={styles.marks}>
          {collarWords(puppy.collar)}
          <span className={styles.sex}>, {puppy.sex}</span>
        </span>
      </span>
    </span>
  );
}

function AxisLine({ axis }: { readonly axis: MeritAxis }) {
  return (
    <div className={`figures ${styles.axis}`}>
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
    <ul className={styles.marksKey}>
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
