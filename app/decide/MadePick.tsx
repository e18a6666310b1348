import type { Decision } from '#lib/contract/decisionView';
import type { Faces } from '../_evaluation/facesOf';
import type { Revealed } from '../_evaluation/useRevealed';
import { CollarChip } from '../_parts/CollarChip';
import { momentWords } from '../_parts/timeWords';
import { BesideLines, besideOf } from '../_result/BesidePuppy';
import styles from './decide.module.css';

type MadePickProps = {
  readonly decision: Decision;
  readonly revealed: Pick<Revealed, 'board' | 'decision' | 'addenda'>;
  readonly faces: Faces;
};

/** A pick that was made: whom, by whom, why, whether it followed the panel, and what stands beside the puppy. */
export function MadePick({ decision, revealed, faces }: MadePickProps) {
  const puppy = decision.puppyId === null ? undefined : faces.puppy(decision.puppyId);
  return (
    <div className="stack gap-4">
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
      {decision.reason === '' ? (
        <p className="small">No reason was written down.</p>
      ) : (
        <p className="quote asWritten">{decision.reason}</p>
      )}
      {puppy ? (
        <p>
          <BesideLines beside={besideOf(puppy.id, { revealed, faces })} />
        </p>
      ) : null}
    </div>
  );
}

/** Whether a pick was the panel's most probable puppy, and whether it was declared a preference. */
function followedWords({ puppyId, followedPanel, preference }: Decision): string {
  if (puppyId === null) return 'Nobody takes this place.';
  const followed =
    followedPanel === null
      ? 'The panel named no puppy for this place.'
      : followedPanel
        ? 'The panel’s most probable puppy for this place.'
        : 'Not the panel’s most probable puppy for this place.';
  return preference ? `${followed} Declared a preference between puppies the scores do not tell apart.` : followed;
}
