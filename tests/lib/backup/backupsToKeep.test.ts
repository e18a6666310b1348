import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  backupName,
  type BackupName,
  backupsToKeep,
  inSequence,
  leastKeeping,
  readBackupName,
  roomFor,
  usualKeeping,
} from '#lib/backup/backupsToKeep';

const hour = 3_600_000;
const start = Date.UTC(2026, 8, 12, 9);
const most = usualKeeping.newest + usualKeeping.hours + usualKeeping.days + usualKeeping.months;

const made = (times: readonly number[]): BackupName[] =>
  times.map((at, place) => ({ name: backupName(place + 1, at), sequence: place + 1, at }));

/** What lies in the folder when every backup was followed by a clearing. */
const afterEach = (times: readonly number[]) =>
  made(times).reduce<BackupName[]>((kept, one) => backupsToKeep([...kept, one]), []);

/** A clock that goes on by minutes, hours or days, and now and then jumps by up to two years either way. */
const clock = fc
  .array(
    fc.oneof(
      { weight: 6, arbitrary: fc.integer({ min: 0, max: 3 * hour }) },
      { weight: 3, arbitrary: fc.integer({ min: 12 * hour, max: 60 * hour }) },
      { weight: 1, arbitrary: fc.integer({ min: -17_520 * hour, max: 17_520 * hour }) },
    ),
    { minLength: 1, maxLength: 400 },
  )
  .map((steps) =>
    steps.map(
      (
        (at) => (step: number) =>
          (at += step)
      )(start),
    ),
  );

const periods = [
  ['hours', 13, usualKeeping.hours],
  ['days', 10, usualKeeping.days],
  ['months', 7, usualKeeping.months],
] as const;

it('SC3: whatever the clock did, the newest backups are kept, their number is bounded, and clearing after each is clearing once', () => {
  fc.assert(
    fc.property(clock, (times) => {
      const kept = afterEach(times);
      const sequences = kept.map(({ sequence }) => sequence);
      expect(sequences.slice(-Math.min(times.length, usualKeeping.newest))).toEqual(
        made(times)
          .slice(-usualKeeping.newest)
          .map(({ sequence }) => sequence),
      );
      expect(kept.length).toBeLessThanOrEqual(most);
      expect(sequences).toEqual(backupsToKeep(made(times)).map(({ sequence }) => sequence));
    }),
    { numRuns: 150 },
  );
});

it.each(periods)(
  'SC3: whatever the clock did, of each of the last %s with backups the last one survives',
  (_, length, many) => {
    fc.assert(
      fc.property(clock, (times) => {
        const kept = new Set(afterEach(times).map(({ name }) => name));
        const last = new Map(made(times).map((one) => [new Date(one.at).toISOString().slice(0, length), one]));
        const newest = inSequence([...last.values()]).slice(-many);
        expect(newest.filter(({ name }) => !kept.has(name))).toEqual([]);
      }),
      { numRuns: 150 },
    );
  },
);

it('SC3: a day of a hundred locks leaves every earlier day that had backups', () => {
  const days = Array.from({ length: 20 }, (_, day) => start - (20 - day) * 24 * hour);
  const locks = Array.from({ length: 100 }, (_, lock) => start + lock * 120_000);
  const kept = afterEach([...days, ...locks]);
  expect(days.filter((at) => !kept.some((one) => one.at === at))).toEqual([]);
});

it('SC3: with a clock that was a year ahead once, backups go on being kept', () => {
  const kept = afterEach([
    start,
    start + 8760 * hour,
    ...Array.from({ length: 60 }, (_, quarter) => start + (quarter + 1) * (hour / 4)),
  ]);
  expect(kept.at(-1)?.sequence).toBe(62);
  expect(kept.length).toBeGreaterThan(24);
});

it('SC3: names are read as they were made; those of an earlier version are the oldest; other names are none of ours', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1e12 }), fc.integer({ min: 0, max: 253_402_300_799_999 }), (sequence, at) => {
      const name = backupName(sequence, at);
      expect(readBackupName(name)).toEqual({ name, sequence, at });
    }),
  );
  expect(readBackupName(backupName(7, 1e15))?.sequence).toBe(7);
  const [earlier, numbered] = ['evenstack-2030-09-12T09-15-00-000Z.db', backupName(1, start)].map(readBackupName);
  expect(earlier).toMatchObject({ sequence: 0 });
  expect(earlier && numbered && inSequence([numbered, earlier])).toEqual([earlier, numbered]);
  for (const name of [
    'evenstack-mine.db',
    'evenstack.db',
    'evenstack-00000001-2026-13-40T09-15-00-000Z.db',
    `${backupName(1, start)}.part`,
  ])
    expect(readBackupName(name)).toBeNull();
});

it('SC3: where room is short the oldest go first, never the least that is kept, and none when that would not help', () => {
  const sized = (times: readonly number[]) => made(times).map((one) => ({ ...one, bytes: 10 }));
  const backups = sized(Array.from({ length: 30 }, (_, quarter) => start + quarter * (hour / 4)));
  expect(roomFor({ backups, free: 50, needed: 50 })).toEqual([]);
  expect(roomFor({ backups, free: 35, needed: 50 })).toEqual(backups.slice(0, 2).map(({ name }) => name));
  expect(roomFor({ backups, free: 0, needed: 300 })).toBeNull();
  fc.assert(
    fc.property(clock, fc.nat(2000), fc.nat(2000), (times, free, needed) => {
      const all = sized(times);
      const givenUp = new Set(roomFor({ backups: all, free, needed }));
      const least = backupsToKeep(all, leastKeeping);
      expect(least.filter(({ name }) => givenUp.has(name))).toEqual([]);
      expect(least.at(-1)?.sequence).toBe(times.length);
    }),
    { numRuns: 60 },
  );
});
