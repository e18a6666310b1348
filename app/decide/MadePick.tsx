import type { Decision } from '#lib/contract/decisionView';
import type { Faces } from '../_evaluation/facesOf';
import { CollarChip } from '../_parts/CollarChip';
import { momentWords } from '../_parts/timeWords';
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

/** Whether a pick was the panel's most probable puppy, and whether it was declared a preference. */
export function followedWords({ puppyId, followedPanel, preference }: Decision): string {
  if (puppyId === null) return 'Nobody takes this place.';
  const followed =
    followedPanel === null
      ? 'The panel named no puppy for this place.'
      : followedPanel
        ? 'The panel’s most probable puppy for this place.'
        : 'Not the panel’s most probable puppy for this place.';
  return preference ? `${followed} Declared a preference between puppies the scores do not tell apart.` : followed;
}
