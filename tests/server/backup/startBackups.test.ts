import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { backUp } from '#db/backUp';
import { checkFile } from '#db/checkFile';
import { countChanges, type Db, open } from '#db/open';
import { appendRecord } from '#db/queries/record';
import type { Room } from '#server/backup/backupFolder';
import { BackupFailed, copyInThread } from '#server/backup/copyInThread';
import { startBackups } from '#server/backup/startBackups';
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

type Surroundings = {
  readonly copyTo?: (target: string) => Promise<void>;
  readonly copyPictures?: () => Promise<void>;
  readonly room?: () => Room;
};

/** Backups with a clock and a disk of the test's own. */
function underTest({
  copyTo = (target) => backUp(source, target).then(() => undefined),
  copyPictures = async () => undefined,
  room = () => ({ free: 1e9, needed: 1 }),
}: Surroundings = {}) {
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
    copyPictures,
    room,
    log: (line) => logged.push(line),
  });
  const list = () => readdirSync(join(folder, 'backups')).toSorted();
  return {
    backups,
    logged,
    list,
    quarterPasses: () => ((now += 900_000), tick()),
    pass: (milliseconds = 1000) => (now += milliseconds),
  };
}

const eventually = <T>(what: () => T) => expect.poll(what);
const change = () => appendRecord(db, { evaluationId: null, at: 1, actor: 'a test', kind: 'set-up-saved', detail: '' });

it('SC1: a backup in a thread of its own is one whole file of mode 0600, equal to what the data file held', async () => {
  makeDay(dayRuntime(db), {});
  const target = join(folder, 'copy.db');
  await copyInThread(worker, { source, target });
  expect(statSync(target).mode & 0o777).toBe(0o600);
  expect(
    readdirSync(folder)
      .filter((name) => name.startsWith('copy'))
      .toSorted(),
  ).toEqual(['copy.db']);
  db.$client.pragma('wal_checkpoint(TRUNCATE)');
  expect(checkFile(target, 'full')).toEqual(checkFile(source, 'full'));
  expect(checkFile(target, 'full').rows.get('puppy')).toBe(3);
});

it('SC1: a copy that cannot be made throws, leaves nothing behind, and says when the source is damaged', async () => {
  change();
  await expect(copyInThread(worker, { source, target: join(folder, 'nowhere', 'copy.db') })).rejects.toBeInstanceOf(
    BackupFailed,
  );
  const torn = join(folder, 'torn.db');
  writeFileSync(torn, 'this is no data file at all, however long one looks at it');
  await expect(backUp(torn, join(folder, 'copy.db'))).rejects.toThrow(/not a database/);
  expect(readdirSync(folder).filter((name) => name.startsWith('copy'))).toEqual([]);
});

it('SC1: a backup is made at the start, after a quarter of an hour with changes, and at the stop; none when nothing changed', async () => {
  const { backups, list, quarterPasses } = underTest();
  await eventually(() => backups.state()?.lastAt).toBe(start);
  quarterPasses();
  change();
  quarterPasses();
  await eventually(() => backups.state()?.lastAt).toBe(start + 1_800_000);
  expect(list()).toEqual([
    'evenstack-00000001-2026-09-12T09-00-00-000Z.db',
    'evenstack-00000002-2026-09-12T09-30-00-000Z.db',
  ]);
  expect(statSync(join(folder, 'backups')).mode & 0o777).toBe(0o700);
  change();
  await backups.close();
  expect(list().length).toBe(3);
  const again = underTest();
  await again.backups.close();
  expect(again.list().length).toBe(4);
  expect(again.list().at(-1)).toBe('evenstack-00000004-2026-09-12T09-00-00-000Z.db');
});

it('SC1: asked over and over while one is under way, one more follows', async () => {
  const running: (() => void)[] = [];
  const { backups } = underTest({
    copyTo: (target) => new Promise((done) => running.push(() => (writeFileSync(target, 'whole'), done()))),
  });
  for (let lock = 0; lock < 12; lock += 1) backups.ask();
  expect(running.length).toBe(1);
  running[0]?.();
  await eventually(() => running.length).toBe(2);
  running[1]?.();
  await backups.close();
  expect(running.length).toBe(2);
});

it('SC1, SC3: with a file of a year ahead in the folder each new backup is kept, and told as kept only because it is', async () => {
  const ahead = join(folder, 'backups', 'evenstack-2027-09-12T09-00-00-000Z.db');
  await underTest().backups.close();
  for (let day = 0; day < 96; day += 1)
    writeFileSync(
      ahead
        .replace('12T', `${String((day % 28) + 1).padStart(2, '0')}T`)
        .replace('T09', `T${String(day % 24).padStart(2, '0')}`),
      'made with the clock ahead',
    );
  const { backups, list, pass } = underTest();
  for (let lock = 0; lock < 5; lock += 1) {
    change();
    pass();
    backups.ask();
    await eventually(() => backups.state()?.lastAt).toBe(start + 1000 * (lock + 1));
    expect(list().at(-1)).toMatch(/^evenstack-2027/);
    expect(list()).toContain(`evenstack-${String(lock + 3).padStart(8, '0')}-2026-09-12T09-00-0${lock + 1}-000Z.db`);
  }
  await backups.close();
  expect(backups.state()?.kept).toBe(list().length);
});

it('SC3: files of other names are somebody’s own and stay; what a broken-off copy left goes', async () => {
  await underTest().backups.close();
  const own = join(folder, 'backups', 'evenstack-mine.db');
  const broken = join(folder, 'backups', 'evenstack-00000009-2026-09-12T09-00-00-000Z.db.part');
  for (const path of [own, broken, `${broken}-journal`]) writeFileSync(path, 'a few bytes');
  await underTest().backups.close();
  expect([own, broken, `${broken}-journal`].map((path) => existsSync(path))).toEqual([true, false, false]);
});

it('SC1: a failing backup is logged without a score, told to the owner, and tried again when something changes', async () => {
  let works = false;
  const { backups, logged, quarterPasses } = underTest({
    copyTo: async (target) => {
      if (!works) throw new BackupFailed('database or disk is full', true);
      writeFileSync(target, 'whole');
    },
  });
  await eventually(() => backups.state()?.failure).toEqual({ at: start, what: 'data', diskFull: true });
  expect(logged).toEqual(['backup: data failed: database or disk is full']);
  works = true;
  quarterPasses();
  await backups.close();
  expect(backups.state()).toMatchObject({ lastAt: start + 900_000, failure: null });
});

it('SC1: pictures that cannot be copied are told as such, and the data are backed up all the same', async () => {
  const { backups, list } = underTest({
    copyPictures: async () => Promise.reject(new BackupFailed('no room for a picture', true)),
  });
  await backups.close();
  expect(backups.state()).toMatchObject({ lastAt: start, kept: 1, failure: { what: 'pictures', diskFull: true } });
  expect(list().length).toBe(1);
});

it('SC1: where room is short older ones are given up and the owner is told; where none can be made, none is made and none goes', async () => {
  let free = 1e9;
  const { backups, list, logged, pass } = underTest({
    copyTo: async (target) => writeFileSync(target, Buffer.alloc(1000)),
    room: () => ({ free, needed: 2000 }),
  });
  const more = async (ask: () => void) => {
    change();
    pass();
    ask();
    await backups.close();
  };
  for (let made = 0; made < 6; made += 1) await more(backups.ask);
  const before = list();
  expect(before.length).toBe(7);
  free = 500;
  await more(backups.ask);
  // Two thousand bytes are needed and five hundred free: two of a thousand go.
  expect(list()).toEqual([...before.slice(2), expect.stringContaining('evenstack-00000008')]);
  expect(backups.state()).toMatchObject({ kept: 6, shortOfRoom: true, failure: null });
  free = -1e6;
  const left = list();
  await more(backups.ask);
  expect(list()).toEqual(left);
  expect(backups.state()).toMatchObject({ kept: 6, failure: { what: 'data', diskFull: true } });
  expect(logged.at(-1)).toBe('backup: data failed: too little room on the disk: what is left is kept for scores');
});

it('SC1: a name that cannot be given to the finished copy leaves nothing behind and fails', async () => {
  const taken = join(folder, 'backups', 'evenstack-00000001-2026-09-12T09-00-00-000Z.db');
  mkdirSync(join(taken, 'full'), { recursive: true });
  await expect(copyInThread(worker, { source, target: taken })).rejects.toBeInstanceOf(BackupFailed);
  expect(readdirSync(join(folder, 'backups'))).toEqual(['evenstack-00000001-2026-09-12T09-00-00-000Z.db']);
});

type Fate = 'made' | 'slow' | 'fails' | 'lies' | 'leaves an empty file';
const fate = fc.constantFrom<Fate>('made', 'made', 'made', 'slow', 'fails', 'lies', 'leaves an empty file');
const step = fc.record({
  fate,
  passes: fc.oneof(fc.nat(3_600_000), fc.constantFrom(31_536_000_000, -31_536_000_000, 86_400_000)),
  asks: fc.integer({ min: 1, max: 3 }),
});

it('SC1, SC3: on a slow, failing and lying disk with a jumping clock the newest good backup is there, counted truly, and nothing goes because of a failure', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 60 }), async (steps) => {
      rmSync(join(folder, 'backups'), { recursive: true, force: true });
      let now: Fate = 'made';
      const good: string[] = [];
      const copyTo = async (target: string) => {
        const mine = now;
        if (mine === 'fails') throw new BackupFailed('input/output error', false);
        if (mine === 'slow') await new Promise((resolve) => setImmediate(resolve));
        if (mine !== 'lies') writeFileSync(target, mine === 'leaves an empty file' ? '' : 'whole');
        if (mine === 'made' || mine === 'slow') good.push(basename(target));
      };
      const { backups, list, pass } = underTest({ copyTo });
      await backups.close();
      for (const { fate: next, passes, asks } of steps) {
        now = next;
        const before = list();
        change();
        pass(passes);
        for (let asked = 0; asked < asks; asked += 1) backups.ask();
        await backups.close();
        const state = backups.state();
        expect(list().filter((name) => statSync(join(folder, 'backups', name)).size === 0)).toEqual([]);
        expect(state?.kept).toBe(list().length);
        expect(state?.failure === null).toBe(next === 'made' || next === 'slow');
        expect(list()).toContain(good.at(-1));
        if (state?.failure) expect(before.filter((name) => !list().includes(name))).toEqual([]);
      }
    }),
    { numRuns: 40 },
  );
});

it('BL5: a folder of backups that others could read is closed to them', async () => {
  await underTest().backups.close();
  chmodSync(join(folder, 'backups'), 0o755);
  await underTest().backups.close();
  expect(statSync(join(folder, 'backups')).mode & 0o777).toBe(0o700);
});
