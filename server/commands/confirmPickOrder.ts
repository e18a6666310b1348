import { saveConfirmation } from '#db/queries/saveConfirmation';
import { decideConfirm } from '#lib/evaluation/decideRound';
import { DomainError } from '#lib/errors';
import { pickOrderWording } from '#lib/evaluation/pickOrderWording';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

/** A party agrees, from its own seat, to the pick order as it is worded now; a later change asks again. */
export function confirmPickOrder(runtime: Runtime, { evaluationId, seatId }: { readonly evaluationId: string; readonly seatId: string }): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-allowed');
    refuse(decideConfirm(facts, seat));
    if (facts.confirmedSeatIds.includes(seatId)) return;
    saveConfirmation(runtime.db, { evaluationId, seatId, wording: pickOrderWording(facts), at });
    note(seatName(seat.id), 'pick-order-confirmed', `${facts.slots.length} places`);
    touchAll();
  });
}
