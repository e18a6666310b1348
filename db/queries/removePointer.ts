import type { Db } from '../open';
import { pointerRemoval } from '../schemaPhoto';

/** A mark taken back by its own seat: kept, and shown no more. */
export function removePointer(db: Db, row: typeof pointerRemoval.$inferInsert): void {
  db.insert(pointerRemoval).values(row).onConflictDoNothing().run();
}
