import { join } from 'node:path';
import { keepWhole, listBackups, makeRoom, nextName, prepareFolder, prune, type Room } from './backupFolder';
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
  /** Copies the pictures that a finished backup names and that have no copy yet, or throws. */
  readonly copyPictures: (backup: string) => Promise<void>;
  /** Free bytes of the disk, and how many it must have for one more backup and for the scores after it. */
  readonly room: () => Room;
  readonly log: (line: string) => void;
};

const backupInterval = 15 * 60_000;

/**
 * Backups of one data file: one at the start, when asked to (at a lock, at a reveal), every 15 minutes when something changed,
 * and at the stop. Asked again while one is under way, one more follows, however often it was asked.
 */
export function startBackups(settings: BackupSettings): Backups {
  const { folder, clock, every, changes, log } = settings;
  prepareFolder(folder);
  let state: BackupState = { lastAt: null, kept: listBackups(folder).length, shortOfRoom: false, failure: null };
  let covered: number | null = null;
  let running: Promise<void> | null = null;
  let again = false;

  const make = async () => {
    const at = clock.now();
    const seen = changes();
    const fail = (what: 'data' | 'pictures', error: unknown) => {
      log(`backup: ${what} failed: ${error instanceof Error ? error.message : String(error)}`);
      state = {
        ...state,
        kept: listBackups(folder).length,
        failure: { at, what, diskFull: error instanceof BackupFailed && error.diskFull },
      };
    };
    try {
      const { path, gaveUp } = await makeOne(settings, at);
      covered = seen;
      state = { lastAt: at, kept: listBackups(folder).length, shortOfRoom: gaveUp > 0, failure: null };
      await settings.copyPictures(path).catch((error: unknown) => fail('pictures', error));
    } catch (error) {
      fail('data', error);
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
  ask();
  return {
    ask,
    state: () => state,
    close: async () => {
      stop();
      await running;
      if (changes() !== covered) await makeAll();
    },
  };
}

/** One backup of the data, there and told to be there; older ones go only after it. Throws when there is none. */
async function makeOne(
  { folder, copyTo, room, log }: BackupSettings,
  at: number,
): Promise<{ readonly path: string; readonly gaveUp: number }> {
  const gaveUp = makeRoom(folder, room());
  if (gaveUp === null) throw new BackupFailed('too little room on the disk: what is left is kept for scores', true);
  if (gaveUp > 0) log(`backup: room on the disk is short: ${gaveUp} older backups were given up for the new one`);
  const path = join(folder, nextName(folder, at));
  await copyTo(path);
  if (!keepWhole(path)) throw new BackupFailed('the copy was said to be made and is not there', false);
  try {
    prune(folder);
  } catch (error) {
    // The new one is made; one too many of the old is no fault of it.
    log(`backup: an older one could not be removed: ${error instanceof Error ? error.message : String(error)}`);
  }
  return { path, gaveUp };
}
