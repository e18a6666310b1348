import { desc } from 'drizzle-orm';
import type { RecordHead } from '#lib/contract/commitment';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';

/** The newest line's number and hash; zeros for an empty record. */
export function findRecordHead(db: Db): RecordHead {
  const last = db.select({ seq: record.seq, hash: record.hash }).from(record).orderBy(desc(record.seq)).limit(1).get();
  return last ?? { seq: 0, hash: '0'.repeat(64) };
}
