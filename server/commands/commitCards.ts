import { insertCommitment } from '#db/queries/insertCommitment';
import { listCommitments } from '#db/queries/listCommitments';
import { listOwnAnswers } from '#db/queries/listOwnAnswers';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts, RoundFacts, SeatFacts } from '#lib/evaluation/facts';
import { readsOnly } from '#lib/evaluation/readsOnly';
import { isPromiseOf, ServerCommitment, type Promised } from '../cardsHash';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import type { EvaluationWrite } from './writeEvaluation';

type Seat = { readonly round: RoundFacts; readonly seat: SeatFacts; readonly at: number };
type Lock = Seat & { readonly deviceId: string; readonly promised: Promised };
type Store = Pick<Runtime, 'db' | 'random'>;

/**
 * Takes the promise of the device that locks. It must be over the very cards that the server holds, else the two are not
 * in step: out-of-step, and nothing changes (SC5). The device of a reissued seat does not see what was scored before it
 * (BL9): its promise serves to check its part and is not kept, and the server commits to the whole.
 */
export function commitLock(runtime: Store, { deviceId, promised, ...lock }: Lock): void {
  const { round, seat } = lock;
  const part = readsOnly(round.state, seat, deviceId);
  const seen = { roundId: round.id, seatId: seat.id, answers: listOwnAnswers(runtime.db, { seatId: seat.id, roundId: round.id, deviceId: part }) };
  if (!isPromiseOf(promised, seen)) throw new DomainError('out-of-step');
  if (part === null) keep(runtime, lock, promised);
  else commitByServer(runtime, lock);
}

/** Commits to the whole of a seat's cards, whoever made them and whoever may read them. Takes no nonce. */
function commitByServer(runtime: Store, whole: Seat): void {
  const { db, random } = runtime;
  const [roundId, seatId] = [whole.round.id, whole.seat.id];
  keep(runtime, whole, ServerCommitment.over(random, { roundId, seatId, answers: listOwnAnswers(db, { seatId, roundId, deviceId: null }) }));
}

/** A hash that came with its nonce, or one that the server made with a nonce of its own: there is no third kind. */
function keep({ db, random }: Store, { round, seat, at }: Seat, made: Promised | ServerCommitment): void {
  const row = { id: random.id(), roundId: round.id, seatId: seat.id, nonce: made.nonce, madeAt: at };
  if (made instanceof ServerCommitment) insertCommitment(db, { ...row, hash: made.hash, madeBy: 'server' });
  else insertCommitment(db, { ...row, hash: made.commitment, madeBy: 'device' });
}

/**
 * When a round closes: the server commits to each card that was not locked, seat by seat, and every commitment goes into
 * the record, where the head that all devices hold covers it.
 */
export function publishCommitments(runtime: Store, facts: EvaluationFacts, { at, note }: Pick<EvaluationWrite, 'at' | 'note'>): void {
  const { round } = facts;
  if (!round) throw new DomainError('wrong-phase');
  const seats = facts.seats.filter((seat) => seat.kind !== 'none');
  for (const seat of seats.filter((one) => one.lockedAt === null)) commitByServer(runtime, { round, seat, at });
  const made = new Map(listCommitments(runtime.db, round.id).map((one) => [one.seat, one.hash]));
  for (const seat of seats) note(seatName(seat.id), seat.lockedAt === null ? 'committed-unlocked' : 'committed', made.get(seat.id) ?? '');
}
