import type { Db } from '../../open';
import { hashOf, rowsOf } from '../boundHashes';

/** What a removal of a person's words may change within JSON: these say nothing of a score. */
const wordKeys: ReadonlySet<string> = new Set(['label', 'taker', 'text', 'why', 'reason']);

/** The same JSON without any person's words, so that what is left is bound whatever is removed. Throws for no JSON. */
function withoutWords(json: string): string {
  return JSON.stringify(JSON.parse(json), (key, value: unknown) => (wordKeys.has(key) && typeof value === 'string' ? '' : value));
}

/** A snapshot's scores, checks, choices and all else that no removal changes. */
export function scoresHash(snapshot: string): string {
  return hashOf('scores', withoutWords(snapshot));
}

/** Every answer given to a batch of second looks, changes of mind too. Their ids, known to the devices that made them, keep it from being guessed. */
export function answersHash(db: Db, batchId: string): string {
  const sql = `SELECT a.id, a.seq, a.look_id, a.seat_id, a.device_id, a.choice, a.criterion, a.made_at, a.received_at
    FROM look_answer a JOIN look l ON l.id = a.look_id WHERE l.batch_id = ? ORDER BY a.seq`;
  return hashOf('answers', rowsOf(db, sql, batchId));
}

export type LateHashes = { readonly count: number; readonly late: string; readonly lateWords: string };

/** What came late to a round, as far as it came. Only for a revealed round: before that it tells of other seats' entries. */
export function lateHashes(db: Db, roundId: string): LateHashes {
  const sql = `SELECT id, seat_id, device_id, subject, field, counter, value, made_at, received_at, body FROM entry WHERE round_id = ? AND status = 'late' ORDER BY rowid`;
  const rows = rowsOf(db, sql, roundId);
  return {
    count: rows.length,
    late: hashOf('late', rows.map((row) => [...row.slice(0, -1), withoutWords(String(row.at(-1)))])),
    lateWords: hashOf('lateWords', rows.map((row) => [row[0], row.at(-1)])),
  };
}
