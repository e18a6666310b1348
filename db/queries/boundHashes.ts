import { hash } from 'node:crypto';
import type { Db } from '../open';

/**
 * What the record binds, as SHA-256 over `JSON.stringify([name, 1, [rows of each question]])`, with columns named one by
 * one: a column that comes later changes no hash of an earlier version. Rows of scores are bound in unblinded/scoreHashes.
 */
export type Rows = readonly (readonly unknown[])[];

export function hashOf(name: string, ...parts: readonly unknown[]): string {
  return hash('sha256', JSON.stringify([name, 1, ...parts]), 'hex');
}

const prepared = new WeakMap<Db, Map<string, ReturnType<Db['$client']['prepare']>>>();

export function rowsOf(db: Db, sql: string, id: string): Rows {
  const known = prepared.get(db) ?? new Map<string, ReturnType<Db['$client']['prepare']>>();
  prepared.set(db, known);
  const statement = known.get(sql) ?? db.$client.prepare<unknown[]>(sql).raw();
  known.set(sql, statement);
  // `raw` answers each row as the array of its columns.
  return statement.all(id) as Rows;
}

const ofRound = '(SELECT evaluation_id FROM round WHERE id = ?)';

/** What a round was opened with and nothing changes later. Weights stay hidden behind the round's nonce: without one they could be guessed. */
const terms = [
  'SELECT id, evaluation_id, position, occasion, medium, opened_at, terms_nonce FROM round WHERE id = ?',
  `SELECT frozen_sheet, held_on, medium FROM evaluation WHERE id = ${ofRound}`,
  `SELECT "key", weights FROM purpose WHERE evaluation_id = ${ofRound} ORDER BY "key"`,
  `SELECT kind, learner_seat_id, discussion, silent_repeat, hours_since_meal, look_batches, identity FROM plan WHERE evaluation_id = ${ofRound}`,
  `SELECT position, id, seat_id, purpose, sex, "condition", by_when, if_fails FROM slot WHERE evaluation_id = ${ofRound} ORDER BY position`,
  'SELECT place, id, puppy_id, repeat FROM showing WHERE round_id = ? ORDER BY place',
  'SELECT puppy_id, criterion FROM round_cell WHERE round_id = ? ORDER BY puppy_id, criterion',
];

/** Who takes which place, and who agreed to which wording: what a removal of words may change. */
const agreed = [
  'SELECT id, terms_nonce FROM round WHERE id = ?',
  `SELECT position, taker FROM slot WHERE evaluation_id = ${ofRound} ORDER BY position`,
  `SELECT seat_id, wording, at FROM confirmation WHERE evaluation_id = ${ofRound} ORDER BY seat_id`,
];

export function termsHash(db: Db, roundId: string): string {
  return hashOf('terms', ...terms.map((sql) => rowsOf(db, sql, roundId)));
}

export function agreedHash(db: Db, roundId: string): string {
  return hashOf('agreed', ...agreed.map((sql) => rowsOf(db, sql, roundId)));
}

/** One seat's kind and rights; its label and interest are a person's words. That a seat answers on paper is bound where it does, so that all others keep the hash they had. */
export function seatHash(db: Db, seatId: string): string {
  const rows = rowsOf(
    db,
    'SELECT id, position, kind, leads, picks, organises, reads, owner, paper FROM seat WHERE id = ?',
    seatId,
  );
  return hashOf(
    'seat',
    rows.map((row) => (row.at(-1) === 0 ? row.slice(0, -1) : row)),
  );
}

/** A batch with its looks, as it was opened (BL8). */
export function looksHash(db: Db, batchId: string): string {
  return hashOf(
    'looks',
    rowsOf(db, 'SELECT id, evaluation_id, slot_id, position, medium, opened_at FROM look_batch WHERE id = ?', batchId),
    rowsOf(
      db,
      'SELECT id, position, first_puppy_id, second_puppy_id, first_on_left, repeat FROM look WHERE batch_id = ? ORDER BY position',
      batchId,
    ),
  );
}

/** One hash a row, in the order in which the rows came. */
const eachOf =
  (name: string, sql: string) =>
  (db: Db, evaluationId: string): string[] =>
    rowsOf(db, sql, evaluationId).map((row) => hashOf(name, row));

export const withdrawalHashes = eachOf(
  'withdrawal',
  'SELECT evaluation_id, puppy_id, reason, at FROM withdrawal WHERE evaluation_id = ? ORDER BY rowid',
);
const clearances =
  'SELECT evaluation_id, puppy_id, "check", answer, "by", at, choice, again_on FROM clearance WHERE evaluation_id = ? ORDER BY seq';
/** Veterinary answers to holds; one from before there was a choice is bound as it was then, without one. */
export const clearanceHashes = (db: Db, evaluationId: string): string[] =>
  rowsOf(db, clearances, evaluationId).map((row) => hashOf('clearance', row[6] === null ? row.slice(0, 6) : row));
export const addendumHashes = eachOf(
  'addendum',
  'SELECT id, evaluation_id, kind, puppy_id, "check", choice, again_on, text, "by", at FROM addendum WHERE evaluation_id = ? ORDER BY seq',
);
export const decisionHashes = eachOf(
  'decision',
  'SELECT id, seq, evaluation_id, slot_id, outcome, puppy_id, preference, followed_panel, at FROM decision WHERE evaluation_id = ? ORDER BY seq',
);
/** What a removal of words may change of the decisions; the ids, which nobody is told, keep short words from being guessed. */
export const reasonHashes = eachOf(
  'reason',
  'SELECT id, "by", reason FROM decision WHERE evaluation_id = ? ORDER BY seq',
);

/** Who typed which card from paper, with what device and when. */
export const typedHashes = eachOf(
  'typed',
  'SELECT p.id, p.round_id, p.seat_id, p.showing_id, p.device_id, p.answers, p.at FROM paper_card p JOIN round r ON r.id = p.round_id WHERE r.evaluation_id = ? ORDER BY p.seq',
);

/** The talk: who said something about what, and its words. */
export function notesHash(db: Db, evaluationId: string): string {
  const sql =
    'SELECT id, seat_id, slot_id, puppy_id, other_puppy_id, criterion, at FROM discussion_note WHERE evaluation_id = ? ORDER BY id';
  return hashOf('notes', rowsOf(db, sql, evaluationId));
}

export function noteWordsHash(db: Db, evaluationId: string): string {
  return hashOf(
    'noteWords',
    rowsOf(db, 'SELECT id, text FROM discussion_note WHERE evaluation_id = ? ORDER BY id', evaluationId),
  );
}

/** What an imported evaluation came with: its mark, and every line of the other server's record. Null for one that was made here. */
export function importedHash(db: Db, evaluationId: string): string | null {
  const mark = rowsOf(
    db,
    'SELECT evaluation_id, at, written_at, head_seq, head_hash FROM imported WHERE evaluation_id = ?',
    evaluationId,
  );
  const lines = rowsOf(
    db,
    'SELECT seq, at, actor, kind, body, previous_hash, hash FROM imported_line WHERE evaluation_id = ? ORDER BY seq',
    evaluationId,
  );
  return mark.length + lines.length === 0 ? null : hashOf('lines', mark, lines);
}
