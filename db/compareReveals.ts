import { existsSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { checkFile } from './checkFile';
import type { Db } from './open';

/** Something revealed in the file in use that a backup still holds open or closed, or does not know. */
export type LackingReveal = { readonly evaluation: string; readonly what: 'round' | 'look'; readonly position: number };

export type Comparison =
  | { readonly current: 'missing' | 'unreadable' | 'unrelated' }
  | { readonly current: 'related'; readonly headSeq: number; readonly lacking: readonly LackingReveal[] };

type Revealed = LackingReveal & { readonly id: string };
type Head = { readonly seq: number; readonly hash: string };

/**
 * What the file in use knows to be revealed and a backup does not (BL7). The two are related when the record of one
 * begins with the whole record of the other; only then does the file in use know all that happened after the backup.
 */
export function compareReveals(file: string, backup: Db): Comparison {
  if (!existsSync(file)) return { current: 'missing' };
  try {
    checkFile(file, 'quick');
  } catch {
    // Damaged, cut short, or no data file at all: whatever it is, it cannot be asked.
    return { current: 'unreadable' };
  }
  const client = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    const lacking = revealedIn(client).filter(({ id, what }) => !isRevealed(backup, id, what));
    if (lacking.length === 0 && !areRelated(client, backup.$client)) return { current: 'unrelated' };
    return { current: 'related', headSeq: headOf(client)?.seq ?? 0, lacking };
  } finally {
    client.close();
  }
}

function revealedIn(client: Sqlite.Database): Revealed[] {
  return client
    .prepare<[], Revealed>(
      `SELECT round.id AS id, evaluation.name AS evaluation, 'round' AS what, round.position AS position
       FROM round JOIN evaluation ON evaluation.id = round.evaluation_id WHERE round.state = 'revealed'
       UNION ALL
       SELECT look_batch.id, evaluation.name, 'look', look_batch.position
       FROM look_batch JOIN evaluation ON evaluation.id = look_batch.evaluation_id WHERE look_batch.state = 'revealed'`,
    )
    .all();
}

function isRevealed(backup: Db, id: string, what: 'round' | 'look'): boolean {
  const table = what === 'round' ? 'round' : 'look_batch';
  return backup.$client.prepare<[string], string>(`SELECT state FROM ${table} WHERE id = ?`).pluck().get(id) === 'revealed';
}

function areRelated(one: Sqlite.Database, other: Sqlite.Database): boolean {
  return holdsHead(one, headOf(other)) || holdsHead(other, headOf(one));
}

/** An empty file holds nothing to begin with: it is related to a file that is as empty, and to no other. */
function holdsHead(client: Sqlite.Database, head: Head | null): boolean {
  if (!head) return headOf(client) === null;
  return client.prepare<[number], string>('SELECT hash FROM record WHERE seq = ?').pluck().get(head.seq) === head.hash;
}

function headOf(client: Sqlite.Database): Head | null {
  return client.prepare<[], Head>('SELECT seq, hash FROM record ORDER BY seq DESC LIMIT 1').get() ?? null;
}
