import { asc, eq, isNull, sql } from 'drizzle-orm';
import type { Db } from '../../open';
import { evaluation, round, seat } from '../../schema';
import { removal } from '../../schemaAccess';
import { snapshot } from '../../schemaAfterReveal';
import { commitment } from '../../schemaCommitment';

export type BoundRound = {
  readonly id: string;
  readonly evaluationId: string;
  readonly state: 'open' | 'closed' | 'revealed';
  /** The snapshot's text as it stands; null before reveal. */
  readonly snapshot: string | null;
};

export type BoundSeat = { readonly id: string; readonly roundId: string; readonly evaluationId: string; readonly nonce: string; readonly hash: string; readonly by: string; readonly wordsRemoved: boolean };

/** Every round of the data file with what it is bound to. Score data: only for the check of a data file. */
export function listBoundRounds(db: Db): BoundRound[] {
  return db
    .select({ id: round.id, evaluationId: round.evaluationId, state: round.state, snapshot: snapshot.body })
    .from(round)
    .leftJoin(snapshot, eq(snapshot.roundId, round.id))
    .orderBy(asc(round.id))
    .all();
}

/** Every standing commitment with its nonce. Score data, as above. */
export function listBoundSeats(db: Db): BoundSeat[] {
  return db
    .select({
      id: commitment.seatId, roundId: commitment.roundId, evaluationId: evaluation.id, nonce: commitment.nonce, hash: commitment.hash, by: commitment.madeBy,
      wordsRemoved: sql<number>`${removal.seatId} is not null`,
    })
    .from(commitment)
    .innerJoin(seat, eq(seat.id, commitment.seatId))
    .innerJoin(evaluation, eq(evaluation.id, seat.evaluationId))
    .leftJoin(removal, eq(removal.seatId, seat.id))
    .where(isNull(commitment.voidedAt))
    .all()
    .map((row) => ({ ...row, wordsRemoved: row.wordsRemoved === 1 }));
}
