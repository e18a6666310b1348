import { listOwnAnswers } from '#db/queries/listOwnAnswers';
import type { lockSeat } from '../commands/lockSeat';
import { cardsHash } from '../cardsHash';
import type { Runtime } from '../runtime';

type Seat = { readonly evaluationId: string; readonly roundId: string; readonly seatId: string; readonly deviceId?: string };

/** The lock of a seat that the demo plays without a device of its own: promised over what is held. */
export function lockFor({ db, random }: Runtime, { evaluationId, roundId, seatId, deviceId = '' }: Seat): Parameters<typeof lockSeat>[1] {
  const nonce = random.id();
  const answers = listOwnAnswers(db, { seatId, roundId, deviceId: null });
  return { evaluationId, seatId, deviceId, promised: { nonce, commitment: cardsHash(nonce, { roundId, seatId, answers }) } };
}
