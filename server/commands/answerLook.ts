import { insertLookAnswer } from '#db/queries/insertLookAnswer';
import { listLooks, type LookRow } from '#db/queries/listLooks';
import { listLookSeats } from '#db/queries/listLookSeats';
import { revealLookBatch } from '#db/queries/revealLookBatch';
import { DomainError } from '#lib/errors';
import { mayAnswerLook } from '#lib/evaluation/decideLook';
import type { EvaluationFacts, Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';
import { actorOf } from './actorOf';
import { writeEvaluation } from './writeEvaluation';

type LookReply = {
  readonly evaluationId: string;
  readonly seatId: string;
  readonly deviceId: string;
  readonly answer: { readonly id: string; readonly lookId: string; readonly choice: 'first' | 'second' | 'tie'; readonly criterion: string | null; readonly madeAt: number };
};

/** One seat's private answer; it may change its mind until the look closes, which the last awaited answer does. */
export function answerLook(runtime: Runtime, { evaluationId, seatId, deviceId, answer }: LookReply): void {
  const { db } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, touchSeat, note }) => {
    const look = openLookOf(runtime, evaluationId, answer.lookId);
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat || !mayAnswerLook(facts, seat, look.slotId)) throw new DomainError('not-allowed');
    if (answer.criterion !== null && !facts.sheet.criteria.some((one) => one.key === answer.criterion)) throw new DomainError('bad-input');
    if (!insertLookAnswer(db, { ...answer, seatId, deviceId, receivedAt: at })) return;
    touchSeat(seatId);
    if (!everyoneAnswered(runtime, facts, look)) return;
    revealLookBatch(db, look.batchId, at);
    note('the last answer', 'look-closed');
    touchAll();
  });
}

/** Closes the open look with the answers there are. The owner closes only after giving her own, when she may answer. */
export function closeLook(runtime: Runtime, { evaluationId, viewer, lookId }: { readonly evaluationId: string; readonly viewer: Viewer; readonly lookId: string }): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    if (!viewer.owner && !viewer.leads) throw new DomainError('not-allowed');
    const look = openLookOf(runtime, evaluationId, lookId);
    const seat = facts.seats.find((one) => one.id === viewer.seatId);
    if (seat && mayAnswerLook(facts, seat, look.slotId) && !listLookSeats(runtime.db, lookId).has(seat.id)) throw new DomainError('own-card-open');
    revealLookBatch(runtime.db, look.batchId, at);
    note(actorOf(facts, viewer), 'look-closed');
    touchAll();
  });
}

function openLookOf({ db }: Runtime, evaluationId: string, lookId: string): LookRow {
  const look = listLooks(db, evaluationId).find((one) => one.id === lookId);
  if (!look) throw new DomainError('not-found');
  if (look.state !== 'open') throw new DomainError('wrong-phase');
  return look;
}

function everyoneAnswered({ db }: Runtime, facts: EvaluationFacts, look: LookRow): boolean {
  const answered = listLookSeats(db, look.id);
  return facts.seats.filter((seat) => seat.joined && mayAnswerLook(facts, seat, look.slotId)).every((seat) => answered.has(seat.id));
}
