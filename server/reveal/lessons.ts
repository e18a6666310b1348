import { getEvaluationFacts, listEvaluations } from '#db/queries/evaluations';
import { listPracticeCards } from '#db/queries/unblinded/answers';
import { lessonView, practiceView } from '#lib/blind/lessonView';
import type { LessonView } from '#lib/contract/lesson';
import type { PracticeView } from '#lib/contract/practice';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { lessonSeats } from '#lib/evaluation/rounds';
import { markReader } from '#lib/evaluation/seats';
import { lesson } from '#lib/reconcile/lesson/lesson';
import { lessonProgress, type LessonProgress } from '#lib/reconcile/lesson/lessonProgress';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';
import type { Runtime } from '../runtime';
import { readSnapshot } from './results';

/** The lesson for its learner and its mentor, and nobody else. Throws wrong-phase before the mentor's lock or while a round is open. */
export function readLesson(runtime: Runtime, facts: EvaluationFacts, seatId: string): LessonView {
  const pair = pairFor(facts, seatId);
  return lessonView(readSnapshot(runtime, facts).first, pair);
}

/** The learner's lessons so far. A learner who owns the data has one per litter; by a seat's link only this one is known. */
export function readProgress(
  runtime: Runtime,
  facts: EvaluationFacts,
  asker: { readonly seatId: string; readonly owner: boolean },
): LessonProgress {
  const { learner } = pairFor(facts, asker.seatId);
  const ownerLearns = asker.owner && facts.seats.some((seat) => seat.id === learner && seat.owner);
  const lessons = ownerLearns
    ? listEvaluations(runtime.db).map(({ id }) => getEvaluationFacts(runtime.db, id))
    : [facts];
  return lessonProgress(lessons.flatMap((one) => pastLesson(runtime, one, ownerLearns) ?? []));
}

function pairFor(facts: EvaluationFacts, seatId: string): { readonly learner: string; readonly mentor: string } {
  const pair = lessonSeats(facts);
  if (!pair) throw new DomainError('not-found');
  if (seatId !== pair.learner && seatId !== pair.mentor) throw new DomainError('not-allowed');
  if (facts.round?.state !== 'revealed') throw new DomainError('wrong-phase');
  return pair;
}

function pastLesson(
  runtime: Runtime,
  facts: EvaluationFacts,
  ownerLearns: boolean,
): { heldOn: string; gap: number } | null {
  const pair = lessonSeats(facts);
  const revealed = facts.round?.state === 'revealed' && facts.round.occasion === 'lesson';
  const same = !ownerLearns || facts.seats.some((seat) => seat.owner && seat.id === pair?.learner);
  if (!pair || !revealed || !same) return null;
  const { gap } = lesson(panelFromSnapshot(readSnapshot(runtime, facts).first), pair);
  return 'undefined' in gap ? null : { heldOn: facts.heldOn, gap: gap.value };
}

/** Practice is revealed to each seat at its own lock; the new device of a reissued seat did not lock what an earlier one did. */
export function readPractice(
  { db }: Runtime,
  facts: EvaluationFacts,
  { seat, deviceId }: { readonly seat: SeatFacts; readonly deviceId: string },
): PracticeView {
  return practiceView(facts, seat, listPracticeCards(db, facts.id, markReader(facts, { seatId: seat.id }, deviceId)));
}
