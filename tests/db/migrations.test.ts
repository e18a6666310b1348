import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Sqlite from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { migrateSafely, migrationsFolder } from '#db/migrateSafely';
import { open } from '#db/open';
import { fillFirstVersion } from '#tests/support/fillFirstVersion';

let folder = '';
let file = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-migrations-'));
  file = join(folder, 'v1.db');
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

type Columns = ReadonlyMap<string, readonly string[]>;

function columnsOf(client: Sqlite.Database): Columns {
  const tables = client
    .prepare<[], string>(
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name <> '__drizzle_migrations' ORDER BY name",
    )
    .pluck()
    .all();
  return new Map(
    tables.map((table) => [
      table,
      client.prepare<[string], string>('SELECT name FROM pragma_table_info(?)').pluck().all(table),
    ]),
  );
}

/** Count and checksum of every table, over these columns only. */
function sumsOf(client: Sqlite.Database, columns: Columns): Record<string, string> {
  return Object.fromEntries(
    [...columns].map(([table, names]) => {
      const list = names.map((name) => `"${name}"`).join(', ');
      const rows = client.prepare<[], unknown[]>(`SELECT ${list} FROM "${table}" ORDER BY ${list}`).raw().all();
      return [table, `${rows.length} ${createHash('sha256').update(JSON.stringify(rows)).digest('hex')}`];
    }),
  );
}

it('SC3: the first version has rows in every table, keys and triggers in force', () => {
  const client = new Sqlite(file);
  fillFirstVersion(client);
  const sums = sumsOf(client, columnsOf(client));
  expect(Object.keys(sums).length).toBe(27);
  expect(Object.entries(sums).filter(([table, sum]) => table !== 'boot' && /^0 /.test(sum))).toEqual([]);
  expect(client.pragma('foreign_key_check')).toEqual([]);
  expect(() => client.exec('DELETE FROM entry')).toThrow(/append-only/);
  client.close();
});

it('SC3: every migration since the first version keeps the count and the checksum of every table', () => {
  const before = new Sqlite(file);
  fillFirstVersion(before);
  const columns = columnsOf(before);
  const sums = sumsOf(before, columns);
  before.close();
  const db = open(file);
  expect(sumsOf(db.$client, columns)).toEqual(sums);
  expect(db.$client.pragma('foreign_key_check')).toEqual([]);
  expect(db.$client.pragma('integrity_check', { simple: true })).toBe('ok');
  for (const table of [
    'entry',
    'snapshot',
    'record',
    'look_answer',
    'discussion_note',
    'decision',
    'clearance',
    'addendum',
    'imported',
    'imported_line',
  ]) {
    expect([table, triggersOf(db.$client, table)]).toEqual([table, expect.arrayContaining(['DELETE', 'UPDATE'])]);
  }
  db.$client.close();
});

it('SC3: veterinary answers from before there was a choice keep their order and have none', () => {
  const before = new Sqlite(file);
  fillFirstVersion(before);
  const puppies = before.prepare<[], string>('SELECT puppy_id FROM clearance ORDER BY rowid').pluck().all();
  before.close();
  const db = open(file);
  const rows = db.$client
    .prepare<[], unknown[]>('SELECT puppy_id, choice, again_on FROM clearance ORDER BY seq')
    .raw()
    .all();
  expect(rows).toEqual(puppies.map((puppy) => [puppy, null, null]));
  expect(rows.length).toBeGreaterThan(0);
  const copy = (choice: string) =>
    db.$client.exec(
      `INSERT INTO clearance SELECT NULL, NULL, evaluation_id, puppy_id, "check", answer, "by", ${choice}, at FROM clearance LIMIT 1`,
    );
  for (const choice of ["'again', NULL", "NULL, '2026-12-01'", "'stays', '2026-12-01'", "'perhaps', NULL"])
    expect(() => copy(choice)).toThrow(/CHECK/);
  copy("'again', '2026-12-01'");
  db.$client.close();
});

function triggersOf(client: Sqlite.Database, table: string): (string | undefined)[] {
  const sql = client
    .prepare<[string], string>("SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?")
    .pluck()
    .all(table);
  return sql.map((one) => /BEFORE (UPDATE|DELETE)/.exec(one)?.[1]);
}

/** The migrations of today and one more. */
function withOneMore(sql: string): URL {
  const place = join(folder, 'migrations');
  cpSync(migrationsFolder(), place, { recursive: true });
  const path = join(place, 'meta', '_journal.json');
  const journal = JSON.parse(readFileSync(path, 'utf8')) as { entries: { idx: number; when: number }[] };
  const last = journal.entries.at(-1) ?? { idx: 0, when: 0 };
  journal.entries.push({ ...last, idx: last.idx + 1, when: last.when + 1, ...{ tag: '9999_planted' } });
  writeFileSync(path, JSON.stringify(journal));
  writeFileSync(join(place, '9999_planted.sql'), sql);
  return pathToFileURL(`${place}/`);
}

const cascadingChild = `CREATE TABLE toy (id text PRIMARY KEY, puppy_id text NOT NULL REFERENCES puppy(id) ON DELETE CASCADE) STRICT;
INSERT INTO toy SELECT 'toy of ' || id, id FROM puppy;`;

/** As a generator writes it when a default or a type changes. */
const rebuild = (keep: string) => `PRAGMA foreign_keys=OFF;--> statement-breakpoint
CREATE TABLE __new_puppy AS SELECT * FROM puppy WHERE ${keep};--> statement-breakpoint
DROP TABLE puppy;--> statement-breakpoint
ALTER TABLE __new_puppy RENAME TO puppy;`;

function filledToday(): Sqlite.Database {
  const first = new Sqlite(file);
  fillFirstVersion(first);
  first.close();
  open(file).$client.close();
  const client = new Sqlite(file);
  client.exec(cascadingChild);
  client.pragma('foreign_keys = ON');
  return client;
}

it('SC3: a rebuild of a table that others cascade from empties none of them', () => {
  const client = filledToday();
  const toys = client.prepare('SELECT count(*) AS n FROM toy').get();
  expect(toys).not.toEqual({ n: 0 });
  // The parent key must stay a key, or the check of foreign keys would rightly refuse it.
  migrateSafely(
    drizzle({ client }),
    file,
    withOneMore(`${rebuild('true')}--> statement-breakpoint\nCREATE UNIQUE INDEX puppy_again ON puppy(id);`),
  );
  expect(client.prepare('SELECT count(*) AS n FROM toy').get()).toEqual(toys);
  client.close();
});

it.each([
  [
    'loses a row of the table it rebuilds',
    `${rebuild('rowid > 1')}--> statement-breakpoint\nCREATE UNIQUE INDEX puppy_again ON puppy(id);`,
  ],
  ['drops a table with rows', 'DROP TABLE toy;'],
  ['empties a table', 'DELETE FROM toy WHERE rowid = 1;'],
  [
    'breaks a foreign key',
    "PRAGMA defer_foreign_keys=ON;--> statement-breakpoint\nUPDATE toy SET puppy_id = 'nobody';",
  ],
  ['does not run to its end', 'DELETE FROM toy;--> statement-breakpoint\nSELECT nonsense FROM nowhere;'],
])('SC3: a migration that %s is refused, and the file is as it was', (_, sql) => {
  const client = filledToday();
  const columns = columnsOf(client);
  const sums = sumsOf(client, columns);
  expect(() => migrateSafely(drizzle({ client }), file, withOneMore(sql))).toThrow();
  expect(client.open).toBe(false);
  const after = new Sqlite(file);
  expect(sumsOf(after, columns)).toEqual(sums);
  after.close();
  expect(existsSync(`${file}-wal`)).toBe(false);
});

it('SC3: a file of a later version, and one that is not ours, are refused and left alone', () => {
  const db = open(file);
  db.$client
    .prepare('INSERT INTO __drizzle_migrations (hash, created_at) VALUES (?, ?)')
    .run('later', 99_999_999_999_999);
  db.$client.close();
  expect(() => open(file)).toThrow('this data file was made by a later version of Evenstack');
  const other = join(folder, 'other.db');
  new Sqlite(other).exec('CREATE TABLE theirs (a)').close();
  expect(() => open(other)).toThrow('this is not a data file of Evenstack');
});
