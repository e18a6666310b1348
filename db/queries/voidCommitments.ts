import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { commitment } from '../schemaCommitment';

/** A reopened round binds nobody: what was committed to stays, marked void. */
export function voidCommitments(db: Db, roundId: string, at: number): void {
  db.update(commitment).set({ voidedAt: at }).where(and(eq(commitment.roundId, roundId), isNull(commitment.voidedAt))).run();
}
