import { listClearances } from '#db/queries/listClearances';
import { listDecisions } from '#db/queries/listDecisions';
import { listLooks } from '#db/queries/listLooks';
import { listLookAnswers, type LookAnswerRow } from '#db/queries/unblinded/listLookAnswers';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { scoredRounds } from '#lib/evaluation/scoredRounds';
import { slotEligibility } from '#lib/evaluation/slotEligibility';
import type { Moment } from '#lib/proof/promises';
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

/**
 * What the engine is asked about a revealed evaluation: scores, looks, picks and holds as they stand, or as they stood at
 * an earlier moment. Throws wrong-phase before reveal (BL6).
 */
export function resultQuestion(runtime: Pick<Runtime, 'db'>, facts: EvaluationFacts, moment: Moment = now): ResultQuestion {
  const read = readSnapshot(runtime, factsAt(facts, moment));
  const closed = [...new Set(listLooks(runtime.db, facts.id).filter((look) => look.state === 'revealed').map((look) => look.batchId))].slice(0, moment.batches);
  const lookAnswers = listLookAnswers(runtime.db, facts.id).filter((answer) => closed.includes(answer.batchId));
  const question = questionOf(runtime, { facts, read, lookAnswers, moment });
  const batches = [...new Set(lookAnswers.map((answer) => answer.batchId))];
  return { ...read, question, lookAnswers, sources: [read.ids, batches, question.slots, question.beside] };
}

const now: Moment = { rounds: Infinity, batches: Infinity, decisions: Infinity, clearances: Infinity };

function factsAt(facts: EvaluationFacts, { rounds }: Moment): EvaluationFacts {
  const then = scoredRounds(facts).slice(0, rounds);
  return { ...facts, round: then.at(-1) ?? null, earlierRounds: then.slice(0, -1) };
}

type Sources = { readonly facts: EvaluationFacts; readonly read: ReadSnapshot; readonly lookAnswers: readonly LookAnswerRow[]; readonly moment: Moment };

function questionOf({ db }: Pick<Runtime, 'db'>, { facts, read: { body: snapshot }, lookAnswers, moment }: Sources): ReconcileQuestion {
  const holds = holdsOf(snapshot, listClearances(db, facts.id).slice(0, moment.clearances));
  const held = new Set(holds.filter((hold) => !hold.cleared).map((hold) => hold.puppyId));
  const decisions = listDecisions(db, facts.id, moment.decisions);
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
