import { createHash } from 'node:crypto';
import type { Db } from '#db/open';
import { findResult, listResultKeys } from '#db/queries/results';
import { getEvaluationFacts } from '#db/queries/evaluations';
import type { PromisedEvaluation } from '#lib/proof/promises';
import { sameNumbers } from '#lib/proof/sameNumbers';
import { agreement } from '#lib/reconcile/agreement/agreement';
import { evaluatorProfile } from '#lib/reconcile/seats/evaluatorProfile';
import { reconcile } from '#lib/reconcile/merit/reconcile';
import { repeatsFromSnapshot } from '#lib/reconcile/panel/repeatsFromSnapshot';
import { showingOrders } from '#lib/reconcile/panel/showingOrders';
import { seatQuestions } from '#lib/reconcile/seats/seatQuestions';
import { bandsOf, type Computed, resultKey, resultQuestion, type ResultQuestion } from './results';

export type ResultFault = { readonly id: string; readonly words: string };

export type ResultCheck = {
  readonly faults: readonly ResultFault[];
  /** Stored results that this build's engine was asked again. */
  readonly recomputed: number;
  /** Stored results of another engine version, or to a question that cannot be put again. */
  readonly notRecomputed: number;
};

/** Holds the results that somebody decided upon to the hashes in the record. */
export function decidedUponFaults(db: Db, evaluations: readonly PromisedEvaluation[]): ResultFault[] {
  return evaluations
    .flatMap(({ results }) => results)
    .flatMap(({ question, result }) => {
      const stored = findResult(db, question);
      const made = stored === undefined ? null : createHash('sha256').update(stored).digest('hex');
      return made === result
        ? []
        : [{ id: question, words: 'this result is not the one that was there when it was decided upon' }];
    });
}

/**
 * Puts each question that was open at some moment of the record to this build's engine again, where its answer is stored: one
 * takes up to half a second, so only for a file in which all else is sound.
 */
export function computeAgain(db: Db, evaluations: readonly PromisedEvaluation[]): ResultCheck {
  const faults: ResultFault[] = [];
  const asked = new Set<string>();
  for (const question of evaluations.flatMap((promised) => questionsOf(db, promised))) {
    const key = resultKey(question);
    const stored = asked.has(key) ? undefined : findResult(db, key);
    if (stored === undefined) continue;
    asked.add(key);
    if (!isAnswer(stored, question))
      faults.push({ id: key, words: 'this result is not what the engine makes of its question' });
  }
  return { faults, recomputed: asked.size, notRecomputed: listResultKeys(db).filter((key) => !asked.has(key)).length };
}

/** The questions open at any moment since the first reveal. A question that can no longer be put is a fault elsewhere. */
function questionsOf(db: Db, { id, moments }: PromisedEvaluation): ResultQuestion[] {
  return moments.flatMap((moment) => {
    try {
      return [resultQuestion({ db }, getEvaluationFacts(db, id), moment)];
    } catch {
      return [];
    }
  });
}

function isAnswer(stored: string, { question, body }: ResultQuestion): boolean {
  try {
    const agreed = agreement(question.panel);
    const computed: Computed = {
      reconciliation: reconcile(question),
      profiles: evaluatorProfile({
        panel: question.panel,
        orders: showingOrders(body),
        repeats: repeatsFromSnapshot(body),
      }),
      questions: seatQuestions(question.panel),
      bands: bandsOf(question.panel, agreed),
    };
    // As it would have been stored: what JSON leaves out is left out of both.
    return sameNumbers(JSON.parse(stored), JSON.parse(JSON.stringify(computed)));
  } catch {
    return false;
  }
}
