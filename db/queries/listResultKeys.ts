import { asc } from 'drizzle-orm';
import type { Db } from '../open';
import { result } from '../schemaAfterReveal';

/** The keys of all stored results. */
export function listResultKeys(db: Db): string[] {
  return db.select({ key: result.key }).from(result).orderBy(asc(result.key)).all().map((row) => row.key);
}
