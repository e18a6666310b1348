import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { link } from '../schema';

/** A seat that has just been taken is taken: its other unused links and codes die. */
export function dropSeatLinks(db: Db, seatId: string): void {
  db.delete(link).where(and(eq(link.seatId, seatId), isNull(link.usedAt))).run();
}
