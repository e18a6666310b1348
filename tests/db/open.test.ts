import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { inTransaction } from '#db/transaction';
import { type Db, open } from '#db/open';
import { saveLitter, savePuppy } from '#db/queries/litters';

let folder = '';
let db: Db;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-db-'));
  db = open(join(folder, 'data.db'));
});

afterEach(() => {
  db.$client.close();
  rmSync(folder, { recursive: true, force: true });
});

const litter = { id: 'a'.repeat(32), name: 'One', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18', createdAt: 1 };
const list = (pragma: string): unknown[] => [db.$client.pragma(pragma)].flat();

it('SC1: the data file is in WAL mode with synchronous=FULL, read back after a write', () => {
  saveLitter(db, litter);
  expect(db.$client.pragma('journal_mode', { simple: true })).toBe('wal');
  expect(db.$client.pragma('synchronous', { simple: true })).toBe(2);
  expect(db.$client.pragma('foreign_keys', { simple: true })).toBe(1);
  expect(statSync(join(folder, 'data.db')).mode & 0o777).toBe(0o600);
});

it('SC3: every table is strict, no foreign key cascades, and every graded value has a check', () => {
  const tables = db.$client
    .prepare<[], { name: string; strict: number }>(
      "SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\'",
    )
    .all();
  expect(tables.length).toBeGreaterThan(20);
  expect(tables.filter((table) => table.strict !== 1)).toEqual([]);
  for (const { name } of tables) {
    const keys = list(`foreign_key_list("${name}")`) as { on_delete: string }[];
    expect([name, keys.filter((key) => key.on_delete !== 'RESTRICT')]).toEqual([name, []]);
  }
  for (const table of ['entry', 'answer']) {
    const sql = db.$client
      .prepare<[string], { sql: string }>('SELECT sql FROM sqlite_schema WHERE name = ?')
      .get(table)?.sql;
    expect(sql).toMatch(/CHECK.*between -3 and 11/);
  }
});

it.each(['entry', 'snapshot', 'record', 'look_answer', 'discussion_note', 'decision'])(
  'SC3: the history in %s refuses update and delete',
  (table) => {
    const triggers = db.$client
      .prepare<[string], { sql: string }>("SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?")
      .all(table);
    expect(triggers.map(({ sql }) => /BEFORE (UPDATE|DELETE)/.exec(sql)?.[1]).toSorted()).toEqual(['DELETE', 'UPDATE']);
  },
);

it('SC3: a litter with puppies cannot be deleted from under them', () => {
  saveLitter(db, litter);
  savePuppy(db, {
    id: 'b'.repeat(32),
    litterId: litter.id,
    input: { name: 'Fern', sex: 'bitch', collar: 'blue', secondMark: '', chipDigits: '' },
  });
  expect(() => db.$client.prepare('DELETE FROM litter').run()).toThrow(/FOREIGN KEY/);
});

it('SC1: a throw inside a transaction leaves nothing behind', () => {
  expect(() =>
    inTransaction(db, () => {
      saveLitter(db, litter);
      throw new Error('the power went');
    }),
  ).toThrow('the power went');
  expect(db.$client.prepare('SELECT count(*) AS n FROM litter').get()).toEqual({ n: 0 });
});

it('SC3: opening a filled file again migrates nothing away', () => {
  saveLitter(db, litter);
  savePuppy(db, {
    id: 'b'.repeat(32),
    litterId: litter.id,
    input: { name: 'Fern', sex: 'bitch', collar: 'blue', secondMark: '', chipDigits: '' },
  });
  db.$client.close();
  db = open(join(folder, 'data.db'));
  expect(
    db.$client
      .prepare('SELECT (SELECT count(*) FROM litter) AS litters, (SELECT count(*) FROM puppy) AS puppies')
      .get(),
  ).toEqual({ litters: 1, puppies: 1 });
});
