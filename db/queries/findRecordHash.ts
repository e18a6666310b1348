import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';

/** The hash of one line of the record, whosever it is; undefined when there is none. */
export function findRecordHash(db: Db, seq: number): string | undefined {
  return db.select({ hash: record.hash }).from(record).where(eq(record.seq, seq)).get()?.hash;
}
