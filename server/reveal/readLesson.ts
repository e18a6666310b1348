import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { listEvaluations } from '#db/queries/listEvaluations';
import { lessonView } from '#lib/blind/lessonView';
import type { LessonView } from '#lib/contract/lesson';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { lessonSeats } from '#lib/evaluation/lessonSeats';
import { lesson } from '#lib/reconcile/lesson';
import { lessonProgress, type LessonProgress } from '#lib/reconcile/lessonProgress';
import { panelFromSnapshot } from '#lib/reconcile/panelFromSnapshot';
import type { Runtime } from '../runtime';
import { readSnapshot } from './readSnapshot';

/** The lesson for its learner and its mentor, and nobody else. Throws wrong-phase before the mentor's lock or while a round is open. */
export function readLesson(runtime: Runtime, facts: EvaluationFacts, seatId: string): LessonView {
  const pair = pairFor(facts, seatId);
  return lessonView(readSnapshot(runtime, facts).first, pair);
}

/** The learner's lessons so far. A learner who owns the data has one per litter; by a seat's link only this one is known. */
export function readProgress(runtime: Runtime, facts: EvaluationFacts, asker: { readonly seatId: string; readonly owner: boolean }): LessonProgress {
  const { learner } = pairFor(facts, asker.seatId);
  const ownerLearns = asker.owner && facts.seats.some((seat) => seat.id === learner && seat.owner);
  const lessons = ownerLearns ? listEvaluations(runtime.db).map(({ id }) => getEvaluationFacts(runtime.db, id)) : [facts];
  return lessonProgress(lessons.flatMap((one) => pastLesson(runtime, one, ownerLearns) ?? []));
}

function pairFor(facts: EvaluationFacts, seatId: string): { readonly learner: string; readonly mentor: string } {
  const pair = lessonSeats(facts);
  if (!pair) throw new DomainError('not-found');
  if (seatId !== pair.learner && seatId !== pair.mentor) throw new DomainError('not-allowed');
  if (facts.round?.state !== 'revealed') throw new DomainError('wrong-phase');
  return pair;
}

function pastLesson(runtime: Runtime, facts: EvaluationFacts, ownerLearns: boolean): { heldOn: string; gap: number } | null {
  const pair = lessonSeats(facts);
  const revealed = facts.round?.state === 'revealed' && facts.round.occasion === 'lesson';
  const same = !ownerLearns || facts.seats.some((seat) => seat.owner && seat.id === pair?.learner);
  if (!pair || !revealed || !same) return null;
  const { gap } = lesson(panelFromSnapshot(readSnapshot(runtime, facts).first), pair);
  return 'undefined' in gap ? null : { heldOn: facts.heldOn, gap: gap.value };
}
