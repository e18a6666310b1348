import { existsSync, statfsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { closeDb, countChanges, type Db, open } from '#db/open';
import { holdData, type Hold } from '#db/holdData';
import { picturesFolder } from '#db/picturesFolder';
import { standOfFile } from '#db/migrateSafely';
import { storageFault } from '#db/storageFault';
import { reserve } from '#lib/backup/backupsToKeep';
import { StartRefused } from '../startFault';
import { listBackups, type Room } from './backupFolder';
import type { Backups } from './backups';
import { copyInThread } from './copyInThread';
import { startBackups } from './startBackups';

export type DataSettings = {
  readonly folder: string;
  readonly clock: { now(): number };
  /** The module of the thread that makes one backup. */
  readonly worker: URL;
  readonly log: (line: string) => void;
  /** Begin without data although backups lie there. */
  readonly fresh?: boolean;
};

export type OpenData = { readonly db: Db; readonly backups: Backups; close(): Promise<void> };

export const dataFileIn = (folder: string): string => join(folder, 'evenstack.db');
export const backupsIn = (folder: string): string => join(folder, 'backups');
/** Where the copies of pictures lie, beside the backups that name them. */
export const pictureCopiesIn = (backups: string): string => join(backups, 'pictures');

/** Long enough for a server that is just stopping to let go. */
const holdPatience = 2500;

/** Takes the data folder for this server alone, opens the file, looks it over and starts its backups. Throws StartRefused. */
export function openData({ folder, clock, worker, log, fresh = false }: DataSettings): OpenData {
  const file = dataFileIn(folder);
  const hold = holdData(file, holdPatience);
  if (!hold)
    throw new StartRefused(
      `Another Evenstack server has ${folder} open. Stop that one first, or set EVENSTACK_DATA to another folder.`,
    );
  const db = openHeld(file, { hold, folder, fresh });
  const backups = startBackups({
    folder: backupsIn(folder),
    clock,
    every: (milliseconds, work) => {
      const timer = setInterval(work, milliseconds).unref();
      return () => clearInterval(timer);
    },
    changes: () => countChanges(db),
    copyTo: (target) => copyInThread(worker, { source: file, target }),
    copyPictures: (backup) =>
      copyInThread(worker, { backup, pictures: picturesFolder(db), copies: pictureCopiesIn(backupsIn(folder)) }),
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

type Opening = { readonly hold: Hold; readonly folder: string; readonly fresh: boolean };

/** Opens the file that is held, or lets it go again. */
function openHeld(file: string, { hold, folder, fresh }: Opening): Db {
  try {
    refuseLoss(file, { folder, fresh });
    return openWhole(file);
  } catch (error) {
    hold.release();
    throw error;
  }
}

/** An empty beginning beside backups is a loss until somebody says that it is meant; one beside data is never meant. */
function refuseLoss(file: string, { folder, fresh }: Omit<Opening, 'hold'>): void {
  const empty = isEmpty(file);
  if (fresh && !empty)
    throw new StartRefused(
      `There are data in ${file}, so there is no new beginning here. Move that file away first, or set EVENSTACK_DATA to another folder.`,
    );
  const backups = listBackups(backupsIn(folder));
  const newest = backups.at(-1);
  if (fresh || !empty || !newest) return;
  throw new StartRefused(
    `The data file ${file} is ${existsSync(file) ? 'empty' : 'missing'}, but backups lie beside it. Put the newest back with: npm run restore -- ${join(backupsIn(folder), newest.name)} — or begin without data: npm start -- --new`,
  );
}

function isEmpty(file: string): boolean {
  if (!existsSync(file) || statSync(file).size === 0) return true;
  try {
    return standOfFile(file) === 'empty';
  } catch {
    // Damaged: opening it says so.
    return false;
  }
}

function openWhole(file: string): Db {
  try {
    refuseStranger(file);
    const db = open(file);
    const answer = db.$client.pragma('quick_check(1)', { simple: true });
    if (answer !== 'ok') throw new StartRefused(damaged(file, String(answer)));
    return db;
  } catch (error) {
    if (storageFault(error) === 'store-failed')
      throw new StartRefused(damaged(file, error instanceof Error ? error.message : ''));
    throw error;
  }
}

function refuseStranger(file: string): void {
  const stand = existsSync(file) ? standOfFile(file) : 'empty';
  if (stand === 'newer')
    throw new StartRefused(
      `The data file ${file} was made by a later version of Evenstack. Nothing was changed. Start that version, or one later still.`,
    );
  if (stand === 'foreign')
    throw new StartRefused(
      `${file} is not a data file of Evenstack. Nothing was changed. Set EVENSTACK_DATA to another folder.`,
    );
}

const damaged = (file: string, why: string) =>
  `The data file ${file} cannot be read (${why.replaceAll(/\s*\n\s*/g, ' ')}). Nothing was changed. A backup is put in its place by: npm run restore -- FILE`;

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
