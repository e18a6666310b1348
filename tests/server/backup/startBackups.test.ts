import { chmodSync, existsSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { backUp } from '#db/backUp';
import { checkFile } from '#db/checkFile';
import { countChanges } from '#db/countChanges';
import { open, type Db } from '#db/open';
import { appendRecord } from '#db/queries/appendRecord';
import { BackupFailed, copyInThread } from '#server/backup/copyInThread';
import { backupsKept, startBackups } from '#server/backup/startBackups';
import { dayRuntime, makeDay } from '#tests/support/makeDay';

const worker = new URL('../../support/tsBackUpWorker.mjs', import.meta.url);
const start = Date.UTC(2026, 8, 12, 9);

let folder = '';
let source = '';
let db: Db;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-backups-'));
  source = join(folder, 'evenstack.db');
  db = open(source);
});

afterEach(() => {
  db.$client.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Backups with a clock and a copier of the test's own. */
function underTest(copyTo: (target: string) => Promise<void> = (target) => backUp(source, target).then(() => undefined)) {
  let now = start;
  let tick = () => undefined as void;
  const logged: string[] = [];
  const backups = startBackups({
    folder: join(folder, 'backups'),
    clock: { now: () => now },
    every: (_, work) => {
      tick = work;
      return () => (tick = () => undefined);
    },
    changes: () => countChanges(db),
    copyTo,
    log: (line) => logged.push(line),
  });
  return { backups, logged, list: () => readdirSync(join(folder, 'backups')).toSorted(), quarterPasses: () => ((now += 900_000), tick()), pass: () => (now += 1000) };
}

const change = () => appendRecord(db, { evaluationId: null, at: 1, actor: 'a test', kind: 'set-up-saved', detail: '' });

it('SC1: a backup in a thread of its own is one whole file of mode 0600, equal to what the data file held', async () => {
  makeDay(dayRuntime(db), {});
  const target = join(folder, 'copy.db');
  await copyInThread(worker, { source, target });
  expect(statSync(target).mode & 0o777).toBe(0o600);
  expect(readdirSync(folder).filter((name) => name.startsWith('copy')).toSorted()).toEqual(['copy.db']);
  db.$client.pragma('wal_checkpoint(TRUNCATE)');
  expect(checkFile(target, 'full')).toEqual(checkFile(source, 'full'));
  expect(checkFile(target, 'full').rows.get('puppy')).toBe(3);
});

it('SC1: a copy that cannot be made throws, leaves nothing behind, and says when the source is damaged', async () => {
  change();
  await expect(copyInThread(worker, { source, target: join(folder, 'nowhere', 'copy.db') })).rejects.toBeInstanceOf(BackupFailed);
  const torn = join(folder, 'torn.db');
  writeFileSync(torn, 'this is no data file at all, however long one looks at it');
  await expect(backUp(torn, join(folder, 'copy.db'))).rejects.toThrow(/not a database/);
  expect(readdirSync(folder).filter((name) => name.startsWith('copy'))).toEqual([]);
});

it('SC1: a quarter of an hour brings a backup when something changed, and none when nothing did', async () => {
  const { backups, list, quarterPasses } = underTest();
  change();
  quarterPasses();
  await backups.close();
  expect(list()).toEqual(['evenstack-2026-09-12T09-15-00-000Z.db']);
  expect(statSync(join(folder, 'backups')).mode & 0o777).toBe(0o700);
  const again = underTest();
  again.quarterPasses();
  await again.backups.close();
  const idle = underTest();
  idle.backups.ask();
  await expect.poll(() => idle.backups.state()?.lastAt).toBe(start);
  const before = idle.list();
  idle.quarterPasses();
  await idle.backups.close();
  expect(idle.list()).toEqual(before);
});

it('SC1: asked over and over while one is under way, one more follows', async () => {
  const running: (() => void)[] = [];
  const { backups } = underTest(() => new Promise((done) => running.push(done)));
  for (let lock = 0; lock < 12; lock += 1) backups.ask();
  expect(running.length).toBe(1);
  running[0]?.();
  await expect.poll(() => running.length).toBe(2);
  running[1]?.();
  await backups.close();
  expect(running.length).toBe(2);
});

it(`SC1: the newest ${backupsKept} are kept, and only files of that name are removed`, async () => {
  const { backups, list, pass } = underTest(async (target) => writeFileSync(target, ''));
  const own = join(folder, 'backups', 'evenstack-mine.db');
  writeFileSync(own, 'kept by hand');
  for (let made = 0; made < backupsKept + 3; made += 1) {
    pass();
    backups.ask();
    await expect.poll(() => backups.state()?.lastAt).toBe(start + 1000 * (made + 1));
  }
  await backups.close();
  expect(existsSync(own)).toBe(true);
  const names = list().filter((name) => name !== 'evenstack-mine.db');
  expect(names.length).toBe(backupsKept);
  expect(names[0]).toBe('evenstack-2026-09-12T09-00-04-000Z.db');
});

it('SC1: a failing backup is logged without a score, told to the owner, and tried again when something changes', async () => {
  let works = false;
  const { backups, logged, quarterPasses } = underTest(async () => {
    if (!works) throw new BackupFailed('database or disk is full', true);
  });
  backups.ask();
  await expect.poll(() => backups.state()?.failure).toEqual({ at: start, diskFull: true });
  expect(logged).toEqual(['backup: failed: database or disk is full']);
  works = true;
  quarterPasses();
  await backups.close();
  expect(backups.state()).toMatchObject({ lastAt: start + 900_000, failure: null });
});

it('BL5: a folder of backups that others could read is closed to them', async () => {
  const { backups } = underTest();
  chmodSync(join(folder, 'backups'), 0o755);
  await backups.close();
  await underTest().backups.close();
  expect(statSync(join(folder, 'backups')).mode & 0o777).toBe(0o700);
});
