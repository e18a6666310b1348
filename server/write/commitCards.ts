import { createHash } from 'node:crypto';
import { insertCommitment, listCommitments } from '#db/queries/commitments';
import { listOwnAnswers } from '#db/queries/entries';
import { DomainError } from '#lib/errors';
import { canonicalCards, type Cards } from '#lib/evaluation/cards';
import type { EvaluationFacts, RoundFacts, SeatFacts } from '#lib/evaluation/facts';
import { readsOnly } from '#lib/evaluation/seats';
import type { Random } from '../random';
import type { Runtime } from '../runtime';
import { type EvaluationWrite, seatName } from './writeEvaluation';

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
  const seen = {
    roundId: round.id,
    seatId: seat.id,
    answers: listOwnAnswers(runtime.db, { seatId: seat.id, roundId: round.id, deviceId: part }),
  };
  if (!isPromiseOf(promised, seen)) throw new DomainError('out-of-step');
  if (part === null) keep(runtime, lock, promised);
  else commitByServer(runtime, lock);
}

/** Commits to the whole of a seat's cards, whoever made them and whoever may read them. Takes no nonce. */
export function commitByServer(runtime: Store, whole: Seat): void {
  const { db, random } = runtime;
  const [roundId, seatId] = [whole.round.id, whole.seat.id];
  keep(
    runtime,
    whole,
    ServerCommitment.over(random, {
      roundId,
      seatId,
      answers: listOwnAnswers(db, { seatId, roundId, deviceId: null }),
    }),
  );
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
export function publishCommitments(
  runtime: Store,
  facts: EvaluationFacts,
  { at, note }: Pick<EvaluationWrite, 'at' | 'note'>,
): void {
  const { round } = facts;
  if (!round) throw new DomainError('wrong-phase');
  const seats = facts.seats.filter((seat) => seat.kind !== 'none');
  for (const seat of seats.filter((one) => one.lockedAt === null)) commitByServer(runtime, { round, seat, at });
  const made = new Map(listCommitments(runtime.db, round.id).map((one) => [one.seat, one.hash]));
  for (const seat of seats)
    note(seatName(seat.id), seat.lockedAt === null ? 'committed-unlocked' : 'committed', made.get(seat.id) ?? '');
}

/** The commitment to one seat's cards of one round; lib/evaluation/cards says over which bytes. */
export function cardsHash(nonce: string, cards: Cards): string {
  return createHash('sha256').update(Buffer.from(nonce, 'hex')).update(canonicalCards(cards), 'utf8').digest('hex');
}

/** A device's promise: its nonce, and the hash of the cards as it shows them. */
export type Promised = { readonly nonce: string; readonly commitment: string };

/** Whether a promise is over these very cards. Ask it of what the promising device may read: it knows the nonce, and the answer tells it whether they are so. */
function isPromiseOf({ nonce, commitment }: Promised, cards: Cards): boolean {
  return cardsHash(nonce, cards) === commitment;
}

/**
 * What the server itself commits to. Its nonce is drawn here and nowhere else, so that no published hash can be over cards
 * under a nonce that somebody knew before (BL9): six scores under a known nonce are found in seconds.
 */
class ServerCommitment {
  readonly nonce: string;
  readonly hash: string;

  private constructor(nonce: string, cards: Cards) {
    this.nonce = nonce;
    this.hash = cardsHash(nonce, cards);
  }

  static over(random: Random, cards: Cards): ServerCommitment {
    return new ServerCommitment(random.id(), cards);
  }
}
