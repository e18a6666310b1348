import { insertLookAnswer } from '#db/queries/insertLookAnswer';
import { listLooks, type LookRow } from '#db/queries/listLooks';
import { listLookSeats } from '#db/queries/listLookSeats';
import { revealLookBatch } from '#db/queries/revealLookBatch';
import { DomainError } from '#lib/errors';
import { awaitedSeats, decideCloseLook, mayAnswerLook, type AnsweredLook } from '#lib/evaluation/decideLook';
import type { Viewer } from '#lib/evaluation/facts';
import { withBindings } from '#lib/proof/recordKinds';
import { answersBinding } from '../reveal/bindings';
import type { Runtime } from '../runtime';
import { actorOf } from './actorOf';
import { refuse } from './refuse';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

type LookReply = {
  readonly evaluationId: string;
  readonly seatId: string;
  readonly deviceId: string;
  readonly answer: { readonly id: string; readonly lookId: string; readonly choice: 'first' | 'second' | 'tie'; readonly criterion: string | null; readonly madeAt: number };
};

/** One seat's private answer; it may change its mind until the batch closes, which the last awaited answer does. */
export function answerLook(runtime: Runtime, { evaluationId, seatId, deviceId, answer }: LookReply): void {
  const { db } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, touchSeat, note }) => {
    const look = openLookOf(runtime, evaluationId, answer.lookId);
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat || !mayAnswerLook(facts, seat, look)) throw new DomainError('not-allowed');
    if (answer.criterion !== null && !facts.sheet.criteria.some((one) => one.key === answer.criterion)) throw new DomainError('bad-input');
    if (!insertLookAnswer(db, { ...answer, seatId, deviceId, receivedAt: at })) return;
    touchSeat(seatId);
    if (awaitedSeats(facts, awaitingLooks(runtime, evaluationId, look.batchId)).length > 0) return;
    revealLookBatch(db, look.batchId, at);
    note('the last answer', 'look-closed', withBindings('', answersBinding(db, look.batchId)));
    touchAll();
  });
}

/**
 * Closes the open batch with the answers there are; the record says who was still awaited, or how many. A batch that a restore
 * brought back closed takes no answer from anyone, awaits nobody and is shown as it stands.
 */
export function closeLook(runtime: Runtime, { evaluationId, viewer, batchId }: { readonly evaluationId: string; readonly viewer: Viewer; readonly batchId: string }): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const looks = awaitingLooks(runtime, evaluationId, batchId);
    refuse(decideCloseLook(facts, viewer, looks));
    revealLookBatch(runtime.db, batchId, at);
    const missing = awaitedSeats(facts, looks).map((seat) => seatName(seat.id));
    // Whose answers are missing says whose there are, which an anonymous panel tells nobody.
    const who = facts.plan.discussion === 'anonymous' ? `${missing.length} awaited` : missing.join(', ');
    note(actorOf(viewer), 'look-closed', withBindings(missing.length > 0 ? `not answered: ${who}` : '', answersBinding(runtime.db, batchId)));
    touchAll();
  });
}

function openLookOf({ db }: Runtime, evaluationId: string, lookId: string): LookRow {
  const look = listLooks(db, evaluationId).find((one) => one.id === lookId);
  if (!look) throw new DomainError('not-found');
  if (look.state !== 'open') throw new DomainError('wrong-phase');
  return look;
}

/** The looks of a batch that may still be answered; none once a restore has closed it. */
function awaitingLooks({ db }: Runtime, evaluationId: string, batchId: string): AnsweredLook[] {
  const looks = listLooks(db, evaluationId).filter((one) => one.batchId === batchId);
  if (looks.length === 0) throw new DomainError('not-found');
  if (looks.some((look) => look.state === 'revealed')) throw new DomainError('wrong-phase');
  return looks.filter((look) => look.state === 'open').map(({ id, slotId, medium }) => ({ slotId, medium, answered: listLookSeats(db, id) }));
}
