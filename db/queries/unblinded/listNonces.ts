import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../../open';
import { commitment } from '../../schemaCommitment';

/** What opens the standing commitments of a round, by seat. Score data: only for a revealed round, only in server/reveal. */
export function listNonces(db: Db, roundId: string): ReadonlyMap<string, string> {
  const rows = db
    .select({ seat: commitment.seatId, nonce: commitment.nonce })
    .from(commitment)
    .where(and(eq(commitment.roundId, roundId), isNull(commitment.voidedAt)))
    .all();
  return new Map(rows.map(({ seat, nonce }) => [seat, nonce]));
}
