import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { seatRound } from '../schema';

/** A reopened round has no locks: every seat locks anew. */
export function voidLocks(db: Db, roundId: string): void {
  db.update(seatRound).set({ lockedAt: null }).where(eq(seatRound.roundId, roundId)).run();
}
