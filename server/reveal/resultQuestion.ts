import { listClearances } from '#db/queries/listClearances';
import { listDecisions } from '#db/queries/listDecisions';
import { listLooks } from '#db/queries/listLooks';
import { listLookAnswers, type LookAnswerRow } from '#db/queries/unblinded/listLookAnswers';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { slotEligibility } from '#lib/evaluation/slotEligibility';
import { besideFromSnapshot } from '#lib/reconcile/besideFromSnapshot';
import type { LookAnswer, ReconcileQuestion } from '#lib/reconcile/panel';
import { panelFromSnapshot } from '#lib/reconcile/panelFromSnapshot';
import type { Runtime } from '../runtime';
import { readSnapshot, type ReadSnapshot } from './readSnapshot';

export type ResultQuestion = ReadSnapshot & {
  readonly question: ReconcileQuestion;
  readonly lookAnswers: readonly LookAnswerRow[];
  /** Everything the answer depends on, for a cache key. */
  readonly sources: readonly unknown[];
};

/** What the engine is asked about a revealed evaluation: scores, looks, picks and holds as they stand. Throws wrong-phase before reveal (BL6). */
export function resultQuestion(runtime: Pick<Runtime, 'db'>, facts: EvaluationFacts): ResultQuestion {
  const read = readSnapshot(runtime, facts);
  const lookAnswers = listLookAnswers(runtime.db, facts.id);
  const question = questionOf(runtime, { facts, read, lookAnswers });
  const batches = [...new Set(lookAnswers.map((answer) => answer.batchId))];
  return { ...read, question, lookAnswers, sources: [read.ids, batches, question.slots, question.beside] };
}

type Sources = { readonly facts: EvaluationFacts; readonly read: ReadSnapshot; readonly lookAnswers: readonly LookAnswerRow[] };

function questionOf({ db }: Pick<Runtime, 'db'>, { facts, read: { body: snapshot }, lookAnswers }: Sources): ReconcileQuestion {
  const holds = holdsOf(snapshot, listClearances(db, facts.id));
  const held = new Set(holds.filter((hold) => !hold.cleared).map((hold) => hold.puppyId));
  const decisions = listDecisions(db, facts.id);
  return {
    panel: panelFromSnapshot(snapshot),
    purposes: snapshot.purposes,
    slots: snapshot.slots.map((slot) => {
      const made = decisions.find((decision) => decision.slotId === slot.id);
      // A place left empty on purpose takes nobody from the places after it.
      const eligible = made && made.puppyId === null ? [] : slotEligibility(slot, snapshot.puppies, held);
      return { key: slot.id, purpose: slot.purpose, eligible, picked: made?.puppyId ?? null };
    }),
    looks: looksOf(lookAnswers, { db, facts }),
    beside: besideFromSnapshot(snapshot, holds),
  };
}

function looksOf(answers: readonly LookAnswerRow[], { db, facts }: { readonly db: Runtime['db']; readonly facts: EvaluationFacts }): LookAnswer[] {
  const looks = new Map(listLooks(db, facts.id).map((look) => [look.id, look]));
  return answers.flatMap((answer) => {
    const look = looks.get(answer.lookId);
    const slot = facts.slots.find((one) => one.id === look?.slotId);
    if (!look || !slot) return [];
    return [{ evaluator: answer.seatId, purpose: slot.purpose, first: look.firstPuppyId, second: look.secondPuppyId, choice: answer.choice }];
  });
}
