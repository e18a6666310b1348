import type { Db } from '../open';
import { photo } from '../schemaPhoto';

/** Keeps a picture; the same id again changes nothing (SC2). */
export function insertPhoto(db: Db, row: typeof photo.$inferInsert): void {
  db.insert(photo).values(row).onConflictDoNothing().run();
}
