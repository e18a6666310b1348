import type { Db } from '../open';
import { practiceCard } from '../schemaPlan';

/** Keeps a seat's practice; false when it has one already. */
export function insertPracticeCard(db: Db, row: typeof practiceCard.$inferInsert): boolean {
  return db.insert(practiceCard).values(row).onConflictDoNothing().run().changes === 1;
}
