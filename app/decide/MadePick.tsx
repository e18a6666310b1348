import type { Decision } from '#lib/contract/decisionView';
import type { Faces } from '../_evaluation/facesOf';
import { momentWords } from '../_parts/timeWords';
import { CollarChip } from '../_parts/CollarChip';
import { followedWords } from './followedWords';
import styles from './decide.module.css';

/** A pick that was made: whom, by whom, why, and whether it followed the panel. */
export function MadePick({ decision, faces }: { readonly decision: Decision; readonly faces: Faces }) {
  const puppy = decision.puppyId === null ? undefined : faces.puppy(decision.puppyId);
  return (
    <div className={styles.pick}>
      <p className={styles.name}>
        {puppy ? (
          <>
            <CollarChip collar={puppy.collar} size={20} words={false} /> {puppy.name}
          </>
        ) : (
          'Left empty'
        )}
      </p>
      <p className="small">
        Decided by {decision.by} · {momentWords(decision.at)}
      </p>
      <p>{followedWords(decision)}</p>
      {decision.reason === '' ? <p className="small">No reason was written down.</p> : <p className={styles.reason}>{decision.reason}</p>}
    </div>
  );
}
