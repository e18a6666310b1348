import type { Db } from '../open';
import { photoPointer } from '../schemaPhoto';

/** Keeps a mark; the same id again changes nothing (SC2). */
export function insertPointer(db: Db, row: typeof photoPointer.$inferInsert): void {
  db.insert(photoPointer).values(row).onConflictDoNothing().run();
}
