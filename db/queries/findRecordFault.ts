import type { Db } from '../open';
import { recordHash, type RecordLine } from './recordHash';

const lines = `
  SELECT seq, evaluation_id AS evaluationId, at, actor, kind, body AS detail, previous_hash AS previousHash, hash
  FROM record ORDER BY seq`;

/** The number of the first line of the record that does not follow from the one before; null when all do. */
export function findRecordFault(db: Db): number | null {
  let previous = { seq: 0, hash: '' };
  for (const line of db.$client.prepare<[], RecordLine & { readonly hash: string }>(lines).iterate()) {
    const follows = line.seq === previous.seq + 1 && line.previousHash === previous.hash && recordHash(line) === line.hash;
    if (!follows) return line.seq;
    previous = line;
  }
  return null;
}
