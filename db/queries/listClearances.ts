import { eq, sql } from 'drizzle-orm';
import type { Db } from '../open';
import { clearance } from '../schemaAfterReveal';

/** Recorded veterinary answers of an evaluation, in the order in which they came. */
export function listClearances(db: Db, evaluationId: string) {
  return db.select().from(clearance).where(eq(clearance.evaluationId, evaluationId)).orderBy(sql`rowid`).all();
}
