import { statfsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { closeDb } from '#db/closeDb';
import { countChanges } from '#db/countChanges';
import { holdData } from '#db/holdData';
import { open, type Db } from '#db/open';
import { picturesFolder } from '#db/picturesFolder';
import { storageFault } from '#db/storageFault';
import type { Room } from './backupFolder';
import type { Backups } from './backups';
import { copyInThread } from './copyInThread';
import { startBackups } from './startBackups';

export type DataSettings = {
  readonly folder: string;
  readonly clock: { now(): number };
  /** The module of the thread that makes one backup. */
  readonly worker: URL;
  readonly log: (line: string) => void;
};

export type OpenData = { readonly db: Db; readonly backups: Backups; close(): Promise<void> };

/** A start that cannot be: its message is one sentence for the person at the terminal. */
export class DataUnusable extends Error {}

export const dataFileIn = (folder: string): string => join(folder, 'evenstack.db');
export const backupsIn = (folder: string): string => join(folder, 'backups');
/** Where the copies of pictures lie, beside the backups that name them. */
export const pictureCopiesIn = (backups: string): string => join(backups, 'pictures');

/** Long enough for a server that is just stopping to let go. */
const holdPatience = 2500;

/** Takes the data folder for this server alone, opens the file, looks it over and starts its backups. Throws DataUnusable. */
export function openData({ folder, clock, worker, log }: DataSettings): OpenData {
  const file = dataFileIn(folder);
  const hold = holdData(file, holdPatience);
  if (!hold) throw new DataUnusable(`Another Evenstack server has ${folder} open. Stop that one first, or set EVENSTACK_DATA to another folder.`);
  const db = openWhole(file);
  const backups = startBackups({
    folder: backupsIn(folder),
    clock,
    every: (milliseconds, work) => {
      const timer = setInterval(work, milliseconds).unref();
      return () => clearInterval(timer);
    },
    changes: () => countChanges(db),
    copyTo: (target) => copyInThread(worker, { source: file, target }),
    copyPictures: (backup) => copyInThread(worker, { backup, pictures: picturesFolder(db), copies: pictureCopiesIn(backupsIn(folder)) }),
    room: () => roomFor(file),
    log,
  });
  return {
    db,
    backups,
    close: async () => {
      await backups.close();
      closeDb(db);
      hold.release();
    },
  };
}

function openWhole(file: string): Db {
  try {
    const db = open(file);
    const answer = db.$client.pragma('quick_check(1)', { simple: true });
    if (answer !== 'ok') throw new DataUnusable(damaged(file, String(answer)));
    return db;
  } catch (error) {
    if (storageFault(error) === 'store-failed') throw new DataUnusable(damaged(file, error instanceof Error ? error.message : ''));
    throw error;
  }
}

const damaged = (file: string, why: string) =>
  `The data file ${file} cannot be read (${why.replaceAll(/\s*\n\s*/g, ' ')}). Nothing was changed. A backup is put in its place by: npm run restore -- FILE`;

/** Left free for scores, which are worth more than one backup more. */
const reserve = 128 * 1_048_576;

function roomFor(file: string): Room {
  const bytes = (path: string) => statSync(path, { throwIfNoEntry: false })?.size ?? 0;
  const needed = reserve + bytes(file) + bytes(`${file}-wal`);
  try {
    const { bavail, bsize } = statfsSync(file);
    return { free: bavail * bsize, needed };
  } catch {
    // Not every disk can be asked; then the copy itself finds out.
    return { free: Number.POSITIVE_INFINITY, needed };
  }
}
