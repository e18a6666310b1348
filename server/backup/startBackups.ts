import { chmodSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Backups, BackupState } from './backups';
import { BackupFailed } from './copyInThread';

export type BackupSettings = {
  readonly folder: string;
  readonly clock: { now(): number };
  /** Calls `work` over and over; returns the way to stop it. */
  readonly every: (milliseconds: number, work: () => void) => () => void;
  /** A number that moves with every change of the data. */
  readonly changes: () => number;
  /** Copies the data into a file, whole and checked, or throws. */
  readonly copyTo: (target: string) => Promise<void>;
  readonly log: (line: string) => void;
};

/** Four an hour for a whole day without rest: whatever is noticed today, yesterday's state is still there. */
export const backupsKept = 96;
export const backupInterval = 15 * 60_000;

const nameOf = (at: number) => `evenstack-${new Date(at).toISOString().replace(/[:.]/g, '-')}.db`;
const isBackup = (name: string) => /^evenstack-[-\dTZ]+\.db$/.test(name);

/**
 * Backups of one data file: when asked to (at a lock, at a reveal) and every 15 minutes when something changed. Asked again
 * while one is under way, one more follows, however often it was asked.
 */
export function startBackups({ folder, clock, every, changes, copyTo, log }: BackupSettings): Backups {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  chmodSync(folder, 0o700);
  let state: BackupState = { lastAt: null, kept: list(folder).length, failure: null };
  let covered: number | null = null;
  let running: Promise<void> | null = null;
  let again = false;

  const make = async () => {
    const at = clock.now();
    const seen = changes();
    try {
      await copyTo(join(folder, nameOf(at)));
      covered = seen;
      const names = list(folder);
      for (const name of names.slice(0, -backupsKept)) rmSync(join(folder, name));
      state = { lastAt: at, kept: Math.min(names.length, backupsKept), failure: null };
    } catch (error) {
      state = { ...state, failure: { at, diskFull: error instanceof BackupFailed && error.diskFull } };
      log(`backup: failed: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const makeAll = async () => {
    do {
      again = false;
      await make();
    } while (again);
    running = null;
  };
  const ask = () => {
    if (running) again = true;
    else running = makeAll();
  };
  const stop = every(backupInterval, () => {
    if (changes() !== covered) ask();
  });
  return {
    ask,
    state: () => state,
    close: async () => {
      stop();
      await running;
    },
  };
}

/** Oldest first: the names sort by time. */
function list(folder: string): string[] {
  return readdirSync(folder).filter(isBackup).toSorted();
}
