import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { decision } from '../schemaAfterReveal';

/** Whether a decision, or a taking back, was written under this id. */
export function isDecided(db: Db, id: string): boolean {
  return db.select({ id: decision.id }).from(decision).where(eq(decision.id, id)).get() !== undefined;
}
