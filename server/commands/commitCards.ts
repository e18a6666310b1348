import { insertCommitment } from '#db/queries/insertCommitment';
import { listCommitments } from '#db/queries/listCommitments';
import { listOwnAnswers } from '#db/queries/listOwnAnswers';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, RoundFacts, SeatFacts } from '#lib/evaluation/facts';
import { readsOnly } from '#lib/evaluation/readsOnly';
import { cardsHash } from '../cardsHash';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import type { EvaluationWrite } from './writeEvaluation';

/** A device's promise: its nonce, and the hash of the cards as it shows them. */
export type Promised = { readonly nonce: string; readonly commitment: string };

type Lock = { readonly round: RoundFacts; readonly seat: SeatFacts; readonly deviceId: string; readonly promised: Promised; readonly at: number };

/**
 * Takes the promise of the device that locks. It must be over the very cards that the server holds, else the two are not
 * in step: out-of-step, and nothing changes (SC5). The device of a reissued seat does not see what was scored before it
 * (BL9), so the server checks its part and commits to the whole.
 */
export function commitLock(runtime: Runtime, { round, seat, deviceId, promised, at }: Lock): void {
  const { db, random } = runtime;
  const { nonce } = promised;
  const held = (only: string | null) => listOwnAnswers(db, { seatId: seat.id, roundId: round.id, deviceId: only });
  const part = readsOnly(round.state, seat, deviceId);
  if (cardsHash(nonce, { roundId: round.id, seatId: seat.id, answers: held(part) }) !== promised.commitment) throw new DomainError('out-of-step');
  const whole = part === null ? promised.commitment : cardsHash(nonce, { roundId: round.id, seatId: seat.id, answers: held(null) });
  insertCommitment(db, { id: random.id(), roundId: round.id, seatId: seat.id, nonce, hash: whole, madeBy: part === null ? 'device' : 'server', madeAt: at });
}

/**
 * When a round closes: the server commits to each card that was not locked, seat by seat, and every commitment goes into
 * the record, where the head that all devices hold covers it.
 */
export function publishCommitments(runtime: Pick<Runtime, 'db' | 'random'>, facts: EvaluationFacts, { at, note }: Pick<EvaluationWrite, 'at' | 'note'>): void {
  const { db, random } = runtime;
  const { round } = facts;
  if (!round) throw new DomainError('wrong-phase');
  const seats = facts.seats.filter((seat) => seat.kind !== 'none');
  for (const seat of seats.filter((one) => one.lockedAt === null)) {
    const nonce = random.id();
    const answers = listOwnAnswers(db, { seatId: seat.id, roundId: round.id, deviceId: null });
    const hash = cardsHash(nonce, { roundId: round.id, seatId: seat.id, answers });
    insertCommitment(db, { id: random.id(), roundId: round.id, seatId: seat.id, nonce, hash, madeBy: 'server', madeAt: at });
  }
  const made = new Map(listCommitments(db, round.id).map((one) => [one.seat, one.hash]));
  for (const seat of seats) note(seatName(seat.id), seat.lockedAt === null ? 'committed-unlocked' : 'committed', made.get(seat.id) ?? '');
}
