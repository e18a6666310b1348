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
    if (!everyoneAnswered(runtime, facts, look)) return;
    revealLookBatch(db, look.batchId, at);
    note('the last answer', 'look-closed');
    touchAll();
  });
}

/**
 * Closes the open batch with the answers there are. Whoever closes it has given all of its own, where it may answer. A batch
 * that a restore brought back closed takes no answer from anyone and is shown as it stands.
 */
export function closeLook(runtime: Runtime, { evaluationId, viewer, batchId }: { readonly evaluationId: string; readonly viewer: Viewer; readonly batchId: string }): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    if (!viewer.owner && !viewer.leads) throw new DomainError('not-allowed');
    const looks = hiddenBatch(runtime, evaluationId, batchId);
    const seat = facts.seats.find((one) => one.id === viewer.seatId);
    if (seat && looks.some((look) => look.state === 'open' && mayAnswerLook(facts, seat, look) && !listLookSeats(runtime.db, look.id).has(seat.id))) throw new DomainError('own-card-open');
    revealLookBatch(runtime.db, batchId, at);
    note(actorOf(viewer), 'look-closed');
    touchAll();
  });
}

function openLookOf({ db }: Runtime, evaluationId: string, lookId: string): LookRow {
  const look = listLooks(db, evaluationId).find((one) => one.id === lookId);
  if (!look) throw new DomainError('not-found');
  if (look.state !== 'open') throw new DomainError('wrong-phase');
  return look;
}

function hiddenBatch({ db }: Runtime, evaluationId: string, batchId: string): LookRow[] {
  const looks = listLooks(db, evaluationId).filter((one) => one.batchId === batchId);
  if (looks.length === 0) throw new DomainError('not-found');
  if (looks.some((look) => look.state === 'revealed')) throw new DomainError('wrong-phase');
  return looks;
}

function everyoneAnswered(runtime: Runtime, facts: EvaluationFacts, { batchId }: LookRow): boolean {
  return hiddenBatch(runtime, facts.id, batchId).every((look) => {
    const answered = listLookSeats(runtime.db, look.id);
    return facts.seats.filter((seat) => seat.joined && mayAnswerLook(facts, seat, look)).every((seat) => answered.has(seat.id));
  });
}
