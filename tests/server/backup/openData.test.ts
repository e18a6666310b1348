import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { holdData } from '#db/holdData';
import { open } from '#db/open';
import { openData } from '#server/backup/openData';
import { startFault } from '#server/startFault';

const worker = new URL('../../support/tsBackUpWorker.mjs', import.meta.url);
let folder = '';
let file = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-open-'));
  file = join(folder, 'evenstack.db');
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

const start = (fresh = false) =>
  openData({ folder, clock: { now: () => Date.UTC(2026, 8, 12) }, worker, log: () => undefined, fresh });

/** The line of a refused start, which lets the folder go again and leaves no data file that was not there. */
function refusal(fresh = false): string {
  const before = readdirSync(folder)
    .filter((name) => !name.includes('.lock'))
    .toSorted();
  try {
    start(fresh);
  } catch (error) {
    const hold = holdData(file, 0);
    expect(hold).not.toBeNull();
    hold?.release();
    expect(
      readdirSync(folder)
        .filter((name) => !/\.lock|-wal$|-shm$/.test(name))
        .toSorted(),
    ).toEqual(before);
    return startFault(error);
  }
  throw new Error('it started');
}

function leaveBackups(): void {
  mkdirSync(join(folder, 'backups'));
  for (const name of ['evenstack-00000002-2026-09-12T09-00-00-000Z.db', 'evenstack-2029-09-12T09-00-00-000Z.db'])
    writeFileSync(join(folder, 'backups', name), 'a backup');
}

const empties = [
  ['missing', () => undefined],
  ['empty', () => writeFileSync(file, '')],
  ['empty', () => new Sqlite(file).exec('PRAGMA user_version = 1').close()],
] as const;

it.each(empties)(
  'SC3: a data file that is %s beside backups stops the start, and the line names the newest backup and both ways on',
  (what, leave) => {
    leaveBackups();
    leave();
    expect(refusal()).toBe(
      `The data file ${file} is ${what}, but backups lie beside it. Put the newest back with: npm run restore -- ${folder}/backups/evenstack-00000002-2026-09-12T09-00-00-000Z.db — or begin without data: npm start -- --new`,
    );
  },
);

it('SC3: --new begins without data beside backups, which stay; beside data it is refused', async () => {
  leaveBackups();
  const data = start(true);
  await data.close();
  expect(readdirSync(join(folder, 'backups'))).toEqual(
    expect.arrayContaining([
      'evenstack-00000002-2026-09-12T09-00-00-000Z.db',
      'evenstack-2029-09-12T09-00-00-000Z.db',
      'evenstack-00000003-2026-09-12T00-00-00-000Z.db',
    ]),
  );
  const kept = readFileSync(file);
  expect(refusal(true)).toMatch(/^There are data in .* no new beginning here/);
  expect(readFileSync(file).equals(kept)).toBe(true);
});

it('SC3: a first start without backups begins, and leaves a backup behind', async () => {
  await start().close();
  expect(readdirSync(join(folder, 'backups')).filter((name) => name.endsWith('.db')).length).toBe(1);
});

it.each([
  [
    'of a later version',
    () =>
      open(file).$client.exec('INSERT INTO __drizzle_migrations (hash, created_at) VALUES (1, 99999999999999)').close(),
    /later version of Evenstack\. Nothing was changed/,
  ],
  ['another program’s', () => new Sqlite(file).exec('CREATE TABLE other (a)').close(), /not a data file of Evenstack/],
  [
    'damaged',
    () => writeFileSync(file, 'this is no data file at all, however long one looks at it'),
    /cannot be read .* npm run restore -- FILE$/,
  ],
] as const)('SC3: a data file that is %s stops the start in one line and is left as it is', (_, leave, words) => {
  leave();
  const before = readFileSync(file);
  const line = refusal();
  expect(line).toMatch(words);
  expect(line).not.toContain('\n');
  expect(readFileSync(file).equals(before)).toBe(true);
});
