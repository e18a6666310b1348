import { existsSync, realpathSync, rmSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { backUp } from '#db/backUp';
import { checkFile } from '#db/checkFile';
import { closeDb } from '#db/closeDb';
import { compareReveals, type Comparison, type LackingReveal } from '#db/compareReveals';
import { holdData } from '#db/holdData';
import { inTransaction } from '#db/inTransaction';
import { open, type Db } from '#db/open';
import { bringBackPictures, type BroughtBack } from '#db/pictureCopies';
import { picturesBeside } from '#db/picturesFolder';
import { findRecordFault } from '#db/queries/findRecordFault';
import { replaceFile } from '#db/replaceFile';
import { standOfFile } from '#db/standOfFile';
import { backupsIn, pictureCopiesIn } from './openData';
import { lostWords, recordRestore, type Closed } from './recordRestore';

export type RestoreOrder = { readonly backup: string; readonly file: string; readonly at: number };

export type RestoreReport = {
  /** Where the replaced file is kept; null when there was none. */
  readonly keptAs: string | null;
  readonly current: Comparison['current'];
  readonly closed: Closed;
  /** By evaluation, how many answers of the replaced file the backup lacks, in words. */
  readonly lost: readonly string[];
  /** Pictures that the data name and the folder lacked; null when they could not be brought back, with the data in place all the same. */
  readonly pictures: BroughtBack | null;
};

/** Why a backup is not restored, as one sentence. The data are then as they were. */
export class RestoreRefused extends Error {}

/**
 * Puts a backup in the place of the data file: only while no server holds it, only when the backup is whole and its record
 * unbroken, and never so that something revealed is open again (BL7, BL8). The change is recorded in the restored file. Throws
 * RestoreRefused.
 */
export async function restoreData(order: RestoreOrder): Promise<RestoreReport> {
  const { backup, file } = order;
  if (!existsSync(backup)) throw new RestoreRefused(`There is no file ${backup}.`);
  if (existsSync(file) && realpathSync(backup) === realpathSync(file)) throw new RestoreRefused('This is the data file itself, not a backup of it.');
  const hold = holdData(file, 0);
  if (!hold) throw new RestoreRefused('A server has this data folder open. Stop it first.');
  const staged = `${file}.restoring`;
  try {
    const db = await stage(backup, staged);
    try {
      const report = swap(db, order, staged);
      return { ...report, pictures: bringBack(order) };
    } finally {
      db.$client.close();
    }
  } finally {
    for (const part of ['', '-wal', '-shm', '.before-migration']) rmSync(`${staged}${part}`, { force: true });
    hold.release();
  }
}

/** A checked copy beside the data file, brought to our schema. */
async function stage(backup: string, staged: string): Promise<Db> {
  const stand = attempt(() => standOfFile(backup));
  if (stand === 'newer') throw new RestoreRefused('This backup was made by a later version of Evenstack.');
  if (stand === 'empty' || stand === 'foreign') throw new RestoreRefused('This is not a data file of Evenstack.');
  await backUp(backup, staged).catch((error: unknown) => refuseAsDamaged(error));
  attempt(() => checkFile(staged, 'full'));
  const db = attempt(() => open(staged));
  const fault = findRecordFault(db);
  if (fault === null) return db;
  db.$client.close();
  throw new RestoreRefused(`The record of this backup is broken at line ${fault}: it was changed after it was written.`);
}

function swap(db: Db, { backup, file, at }: RestoreOrder, staged: string): Omit<RestoreReport, 'pictures'> {
  const comparison = compareReveals(file, db);
  if (comparison.lacking.length > 0) {
    throw new RestoreRefused(`Restoring would open again what has been revealed: ${comparison.lacking.map(inWords).join('; ')}. A reveal is for good. Choose a later backup.`);
  }
  const closed = inTransaction(db, () => recordRestore(db, { backup: basename(backup), comparison, at }));
  closeDb(db);
  checkFile(staged, 'full');
  const beside = `${file}.replaced-${new Date(at).toISOString().replace(/[:.]/g, '-')}`;
  const kept = replaceFile(file, { staged, beside });
  return { keptAs: kept ? beside : null, current: comparison.current, closed, lost: comparison.lost.map((one) => `${lostWords(one)} of “${one.evaluation}”`) };
}

/** From the copies beside the backup, or those of this data folder. The data are in place by then, whatever becomes of pictures. */
function bringBack({ backup, file }: RestoreOrder): BroughtBack | null {
  const copies = [dirname(backup), backupsIn(dirname(file))].map(pictureCopiesIn);
  try {
    return bringBackPictures(file, picturesBeside(file), copies);
  } catch {
    return null;
  }
}

const inWords = ({ evaluation, what, position }: LackingReveal) => `${what === 'round' ? 'round' : 'second look'} ${position + 1} of “${evaluation}”`;

function attempt<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    return refuseAsDamaged(error);
  }
}

function refuseAsDamaged(error: unknown): never {
  throw new RestoreRefused(`This backup cannot be used: ${error instanceof Error ? error.message : String(error)}.`);
}
