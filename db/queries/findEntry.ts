import { eq, sql } from 'drizzle-orm';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { entry } from '../schema';

const entryRow = prepareOnce((db) =>
  db.select({ seatId: entry.seatId, status: entry.status }).from(entry).where(eq(entry.id, sql.placeholder('id'))).prepare(),
);

/** Whose entry this id is and what became of it; undefined when new. A repeated send is answered from here (SC2). */
export function findEntry(db: Db, id: string) {
  return entryRow(db).get({ id });
}
