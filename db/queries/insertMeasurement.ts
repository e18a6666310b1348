import type { Db } from '../open';
import { photoMeasurement } from '../schemaPhoto';

/** Keeps a measurement; the same id again changes nothing (SC2). */
export function insertMeasurement(db: Db, row: typeof photoMeasurement.$inferInsert): void {
  db.insert(photoMeasurement).values(row).onConflictDoNothing().run();
}
