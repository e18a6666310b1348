import { existsSync, realpathSync, rmSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { backUp } from '#db/backUp';
import { checkFile } from '#db/checkFile';
import { compareReveals, type Comparison, type LackingReveal } from '#db/compareReveals';
import type { Lost } from '#db/countLost';
import { holdData } from '#db/holdData';
import { standOfFile } from '#db/migrateSafely';
import { closeDb, type Db, open } from '#db/open';
import { bringBackPictures, type BroughtBack } from '#db/pictureCopies';
import { picturesBeside } from '#db/picturesFolder';
import { getEvaluationFacts, listEvaluations } from '#db/queries/evaluations';
import { stopLookBatches } from '#db/queries/looks';
import { appendRecord, findRecordFault } from '#db/queries/record';
import { setRoundState } from '#db/queries/rounds';
import { raiseVersions } from '#db/queries/versions';
import { replaceFile } from '#db/replaceFile';
import { inTransaction } from '#db/transaction';
import type { RecordKind } from '#lib/proof/recordKinds';
import { systemRandom } from '../random';
import { publishCommitments } from '../write/commitCards';
import { backupsIn, pictureCopiesIn } from './openData';

type RestoreOrder = { readonly backup: string; readonly file: string; readonly at: number };

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
  if (existsSync(file) && realpathSync(backup) === realpathSync(file))
    throw new RestoreRefused('This is the data file itself, not a backup of it.');
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
  throw new RestoreRefused(
    `The record of this backup is broken at line ${fault}: it was changed after it was written.`,
  );
}

function swap(db: Db, { backup, file, at }: RestoreOrder, staged: string): Omit<RestoreReport, 'pictures'> {
  const comparison = compareReveals(file, db);
  const ownCards = comparison.lacking.filter(({ what }) => what === 'ownCard');
  if (ownCards.length > 0) {
    throw new RestoreRefused(
      `Restoring would open the owner’s own card again after cards were typed from paper: ${ownCards.map(inWords).join('; ')}. Who has seen another’s card scores no more. Choose a backup from after the owner’s lock.`,
    );
  }
  if (comparison.lacking.length > 0) {
    throw new RestoreRefused(
      `Restoring would open again what has been revealed: ${comparison.lacking.map(inWords).join('; ')}. A reveal is for good. Choose a later backup.`,
    );
  }
  const closed = inTransaction(db, () => recordRestore(db, { backup: basename(backup), comparison, at }));
  closeDb(db);
  checkFile(staged, 'full');
  const beside = `${file}.replaced-${new Date(at).toISOString().replace(/[:.]/g, '-')}`;
  const kept = replaceFile(file, { staged, beside });
  return {
    keptAs: kept ? beside : null,
    current: comparison.current,
    closed,
    lost: comparison.lost.map((one) => `${lostWords(one)} of “${one.evaluation}”`),
  };
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

const inWords = ({ evaluation, what, position }: LackingReveal) =>
  `${what === 'look' ? 'second look' : 'round'} ${position + 1} of “${evaluation}”`;

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

type Restore = { readonly backup: string; readonly comparison: Comparison; readonly at: number };

/** What the backup holds open and came back closed, in words. */
type Closed = { readonly rounds: readonly string[]; readonly looks: readonly string[] };

const actor = 'whoever runs the server';

/**
 * Writes into the restored data that they were restored, in the record of every evaluation, with how many answers of the
 * replaced file are not in them. A round or batch of second looks stays open only where the replaced file is a later state
 * of the backup and holds it open too; any other comes back closed (BL7, BL8), since it may have been revealed.
 */
function recordRestore(db: Db, { backup, comparison, at }: Restore): Closed {
  const evaluations = listEvaluations(db);
  const note = (evaluationId: string | null, kind: RecordKind, detail: string) =>
    appendRecord(db, { evaluationId, at, actor, kind, detail });
  const restored = `from ${backup}, ${standing(comparison)}`;
  const lostOf = new Map(comparison.lost.map((lost) => [lost.evaluationId, lost]));
  if (evaluations.length === 0) note(null, 'restored', restored);
  const [rounds, looks]: [string[], string[]] = [[], []];
  for (const { id } of evaluations) {
    const lost = lostOf.get(id);
    note(id, 'restored', lost ? `${restored}; not in the backup: ${lostWords(lost)}` : restored);
    lostOf.delete(id);
    rounds.push(...closeOpenRound(db, { id, comparison, at }));
    looks.push(...stopOpenLooks(db, { id, comparison, at }));
  }
  for (const lost of lostOf.values())
    note(null, 'restored', `an evaluation of the replaced file is not in the backup: ${lostWords(lost)}`);
  raiseVersions(db);
  return { rounds, looks };
}

/** Such as "3 entries and 1 answer to a second look". */
function lostWords({ entries, looks, others }: Lost): string {
  const parts = [
    counted(entries, 'entry', 'entries'),
    counted(looks, 'answer to a second look', 'answers to second looks'),
    counted(others, 'note, mark or decision', 'notes, marks and decisions'),
  ].filter((part) => !part.startsWith('0 '));
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}

const counted = (many: number, one: string, several: string) => `${many} ${many === 1 ? one : several}`;

type Held = { readonly id: string; readonly comparison: Comparison; readonly at: number };

function closeOpenRound(db: Db, { id: evaluationId, comparison, at }: Held): string[] {
  const facts = getEvaluationFacts(db, evaluationId);
  if (facts.round?.state !== 'open' || comparison.stillOpen.has(facts.round.id)) return [];
  setRoundState(db, facts.round.id, { from: 'open', to: 'closed', at });
  const note = (by: string, kind: RecordKind, detail = '') =>
    appendRecord(db, { evaluationId, at, actor: by, kind, detail });
  note(actor, 'round-closed', whyClosed(comparison));
  publishCommitments({ db, random: systemRandom }, facts, { at, note });
  return [`the ${facts.round.occasion} round of “${facts.name}”`];
}

function stopOpenLooks(db: Db, { id: evaluationId, comparison, at }: Held): string[] {
  const { name, slots } = getEvaluationFacts(db, evaluationId);
  return stopLookBatches(db, evaluationId, comparison.stillOpen).map((slotId) => {
    const place = slots.findIndex((slot) => slot.id === slotId) + 1;
    appendRecord(db, {
      evaluationId,
      at,
      actor,
      kind: 'look-stopped',
      detail: `place ${place}, ${whyClosed(comparison)}`,
    });
    return `the second looks for place ${place} of “${name}”`;
  });
}

const whyClosed = ({ current }: Comparison) =>
  current === 'related' ? 'not open in the file that the backup replaces' : 'restored without the file it replaces';

function standing({ current, headSeq }: Comparison): string {
  switch (current) {
    case 'related':
      return `in place of a file whose record ended at line ${headSeq}`;
    case 'missing':
      return 'without the file it replaces: there was none';
    case 'unreadable':
      return 'without the file it replaces: it could not be read';
    case 'unrelated':
      return 'in place of a file that is no later state of it';
  }
}
