import type { Db } from '../open';
import { commitment } from '../schemaCommitment';

export function insertCommitment(db: Db, row: Omit<typeof commitment.$inferInsert, 'voidedAt'>): void {
  db.insert(commitment).values(row).run();
}
