import type { Db } from '../open';
import { clearance } from '../schemaAfterReveal';

export function insertClearance(db: Db, row: typeof clearance.$inferInsert): void {
  db.insert(clearance).values(row).run();
}
