import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { clearance } from '../schemaAfterReveal';

/** Recorded veterinary answers of an evaluation. */
export function listClearances(db: Db, evaluationId: string) {
  return db.select().from(clearance).where(eq(clearance.evaluationId, evaluationId)).all();
}
