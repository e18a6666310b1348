import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { entry } from '../schema';

/** Whose entry this id is and what became of it; undefined when new. A repeated send is answered from here (SC2). */
export function findEntry(db: Db, id: string) {
  return db.select({ seatId: entry.seatId, status: entry.status }).from(entry).where(eq(entry.id, id)).get();
}
