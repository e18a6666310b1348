import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { result } from '../schemaAfterReveal';

/** A computed result as JSON, by the hash of what it was computed from. */
export function findResult(db: Db, key: string): string | undefined {
  return db.select({ body: result.body }).from(result).where(eq(result.key, key)).get()?.body;
}
