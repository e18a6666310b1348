import type { PuppyFace } from '#lib/contract/evaluationView';
import { readings } from '#lib/reconcile/sentences/readings';
import styles from './ChanceList.module.css';
import { CollarChip } from './CollarChip';

export type PuppyChance = { readonly puppy: PuppyFace; readonly probability: number };

/** Below this a puppy is named in the closing line instead of drawn. */
const DRAWN_FROM = 0.01;

/** Chances of puppies for one thing, most probable first: a bar and its words for each. The words are the table. */
export function ChanceList({ chances }: { readonly chances: readonly PuppyChance[] }) {
  const drawn = chances.filter(({ probability }) => probability >= DRAWN_FROM);
  const rest = chances.filter(({ probability }) => probability < DRAWN_FROM);
  return (
    <div className="stack gap-6">
      <ul className={`list grid ${styles.rows}`}>
        {drawn.map(({ puppy, probability }) => (
          <li key={puppy.id} className={styles.row}>
            <span className="anywhere bold">
              <CollarChip collar={puppy.collar} words={false} /> {puppy.name}
            </span>
            <svg className={styles.bar} aria-hidden="true">
              <rect width="100%" height="100%" rx="3" className={styles.ground} />
              <rect width={`${probability * 100}%`} height="100%" rx="3" className={styles.share} />
            </svg>
            <span className="figures right">{`${readings(probability)} of 100`}</span>
          </li>
        ))}
      </ul>
      {rest.length > 0 ? (
        <p className="small">Fewer than 1 of 100 each: {rest.map(({ puppy }) => puppy.name).join(', ')}.</p>
      ) : null}
    </div>
  );
}
