import Link from 'next/link';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';
import styles from './EarlierLooks.module.css';
import { LookAnswers } from './LookAnswers';
import { lookOutcomeWords } from './lookOutcomeWords';

type EarlierProps = { readonly looks: readonly LookView[]; readonly evaluation: EvaluationView; readonly faces: Faces };

/** Closed looks, newest first, with the answers by seat and the way to what they moved. */
export function EarlierLooks({ looks, evaluation, faces }: EarlierProps) {
  if (looks.length === 0) return null;
  return (
    <section aria-labelledby="closed-looks" className={styles.section}>
      <h2 id="closed-looks">Closed second looks</h2>
      <p>
        Their answers are part of the board’s numbers now. <Link href={`/board?id=${evaluation.id}`}>See how the board stands</Link>
      </p>
      {looks.toReversed().map((look) => (
        <article key={look.id} className={styles.look}>
          <h3>
            Place {faces.place(look.slotId)}, batch {batchOf(looks, look)}{look.medium === 'photographs' ? ', from photographs' : ''}: {faces.puppyName(look.firstPuppyId)} and {faces.puppyName(look.secondPuppyId)}
          </h3>
          <p>{lookOutcomeWords(look, faces)}</p>
          <LookAnswers look={look} faces={faces} />
        </article>
      ))}
    </section>
  );
}

/** Which of its place's batches a look belongs to, from 1. */
function batchOf(looks: readonly LookView[], { slotId, batchId }: LookView): number {
  return [...new Set(looks.filter((look) => look.slotId === slotId).map((look) => look.batchId))].indexOf(batchId) + 1;
}
