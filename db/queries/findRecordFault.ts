import { asc } from 'drizzle-orm';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';
import { recordHash } from './recordHash';

/** The number of the first line of the record that does not follow from the one before; null when all do. */
export function findRecordFault(db: Db): number | null {
  let previous = { seq: 0, hash: '' };
  for (const line of db.select().from(record).orderBy(asc(record.seq)).all()) {
    const { body: detail, hash, ...rest } = line;
    const follows = line.seq === previous.seq + 1 && line.previousHash === previous.hash && recordHash({ ...rest, detail }) === hash;
    if (!follows) return line.seq;
    previous = line;
  }
  return null;
}
