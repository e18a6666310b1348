import type { Db } from '../open';
import { seatRound } from '../schema';

/** Locks a seat's cards of a round. */
export function setSeatLock(db: Db, row: { readonly roundId: string; readonly seatId: string; readonly lockedAt: number }): void {
  db.insert(seatRound)
    .values(row)
    .onConflictDoUpdate({ target: [seatRound.roundId, seatRound.seatId], set: { lockedAt: row.lockedAt } })
    .run();
}
