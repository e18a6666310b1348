import { and, count, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { entry } from '../schema';

/** How many entries of a round came after lock or close. Asked only of a revealed round. */
export function countLateEntries(db: Db, roundId: string): number {
  return db.select({ n: count() }).from(entry).where(and(eq(entry.roundId, roundId), eq(entry.status, 'late'))).get()?.n ?? 0;
}
