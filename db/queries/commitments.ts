import { and, asc, eq, isNull, ne } from 'drizzle-orm';
import type { Db } from '../open';
import { commitment } from '../schema/commitments';

export function insertCommitment(db: Db, row: Omit<typeof commitment.$inferInsert, 'voidedAt'>): void {
  db.insert(commitment).values(row).run();
}

type CommitmentRow = { readonly seat: string; readonly hash: string; readonly by: 'device' | 'server' };

/** The standing commitments of a round, by seat; their nonces are not among what can be asked here. */
export function listCommitments(db: Db, roundId: string): CommitmentRow[] {
  return db
    .select({ seat: commitment.seatId, hash: commitment.hash, by: commitment.madeBy })
    .from(commitment)
    .where(and(eq(commitment.roundId, roundId), isNull(commitment.voidedAt)))
    .orderBy(asc(commitment.seatId))
    .all();
}

/** A reopened round binds nobody but the seat whose lock stands: what was committed to stays, marked void. */
export function voidCommitments(
  db: Db,
  { roundId, standing, at }: { readonly roundId: string; readonly standing: string | null; readonly at: number },
): void {
  db.update(commitment)
    .set({ voidedAt: at })
    .where(and(eq(commitment.roundId, roundId), ne(commitment.seatId, standing ?? ''), isNull(commitment.voidedAt)))
    .run();
}
