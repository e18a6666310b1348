import { readdirSync, rmSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { closeDb, type Db, open } from '#db/open';
import { picturesFolder, removePicture } from '#db/picturesFolder';
import { hasEvaluation } from '#db/queries/evaluations';
import { storageFault } from '#db/storageFault';
import { inTransaction } from '#db/transaction';
import type { EvaluationFile, Imported } from '#lib/contract/evaluationFile';
import { DomainError } from '#lib/errors';
import type { Intake } from '../media/intake';
import { putEvaluation, RowsClash } from '../reveal/evaluationFile';
import type { Runtime } from '../runtime';
import type { Examine } from './examine';
import { type Arrival, readArrival, refused } from './readArrival';

type Files = ReadonlyMap<
  string,
  { readonly file: string; readonly thumb: string | null; readonly placeholder: string }
>;

type Way = { readonly runtime: Runtime; readonly intake: Intake; readonly examine: Examine };

/** Where what arrives lies until it is known to be sound; beside the data, on the same disk. */
const arriving = 'arriving-';

/**
 * Brings an evaluation in from a file that lies in `folder`. It is first put into a data file of its own and checked there as
 * `verify` checks any; then its pictures are taken in as every upload is; then all its rows go in at once. Answers its id.
 * Throws already-here, or file-refused with a sentence; then nothing is changed.
 */
export async function importEvaluation(
  { runtime, intake, examine }: Way,
  { path, folder }: { readonly path: string; readonly folder: string },
): Promise<string> {
  const arrival = await readArrival(path);
  try {
    const { file } = arrival;
    const id = soleEvaluation(file);
    if (hasEvaluation(runtime.db, id)) throw new DomainError('already-here');
    const mark: Imported = { at: runtime.clock.now(), writtenAt: file.origin.at, head: file.origin.head };
    await checkAlone(file, { mark, examine, path: join(folder, 'alone.db') });
    const files = new Map<
      string,
      { readonly file: string; readonly thumb: string | null; readonly placeholder: string }
    >();
    try {
      await takePictures(arrival, { runtime, intake, folder, files });
      put(runtime.db, { file, mark, files });
    } catch (error) {
      for (const one of files.values())
        for (const name of [one.file, one.thumb])
          if (name !== null) await removePicture(picturesFolder(runtime.db), name);
      throw error;
    }
    return id;
  } finally {
    arrival.close();
  }
}

function soleEvaluation({ rows, lines, origin }: EvaluationFile): string {
  const [evaluation, ...others] = rows.evaluation;
  if (!evaluation || others.length > 0) throw refused('A file holds one evaluation, and this one does not.');
  if (lines.length !== origin.lines)
    throw refused(`The record in this file should have ${origin.lines} lines and has ${lines.length}.`);
  return evaluation.id;
}

type Alone = { readonly mark: Imported; readonly examine: Examine; readonly path: string };

/** In a data file of its own nothing in it can lean on what is here, and nothing of ours is touched by what is wrong with it. */
async function checkAlone(file: EvaluationFile, { mark, examine, path }: Alone): Promise<void> {
  const db = open(path);
  try {
    put(db, { file, mark, files: new Map() });
  } finally {
    closeDb(db);
  }
  const [first, ...others] = await examine(path);
  if (first !== undefined)
    throw refused(`This evaluation does not hold: ${first}${others.length > 0 ? `, and ${others.length} more` : ''}.`);
}

/** Everything or nothing. What is refused by a key or a check of the tables was written by no server. */
function put(
  db: Db,
  { file, mark, files }: { readonly file: EvaluationFile; readonly mark: Imported; readonly files: Files },
): void {
  try {
    inTransaction(db, () => putEvaluation(db, { rows: file.rows, lines: file.lines, mark, files }));
  } catch (error) {
    if (storageFault(error) !== null || error instanceof DomainError) throw error;
    if (error instanceof RowsClash && error.table !== 'evaluation')
      throw refused(
        clashWords[error.table] ?? 'Something in this file is here already under the same id, and says something else.',
      );
    throw refused(
      'This evaluation does not hold: its rows contradict each other, or something is here already under the same id.',
    );
  }
}

const clashWords: Readonly<Record<string, string>> = {
  litter:
    'The litter of this evaluation is here already, under another name or with other dates. Make it the same in both, then write the file anew.',
  puppy:
    'The litter of this evaluation is here already, with other puppies or other names. Make them the same in both, then write the file anew.',
};

type Taking = {
  readonly runtime: Runtime;
  readonly intake: Intake;
  readonly folder: string;
  readonly files: Map<string, { readonly file: string; readonly thumb: string | null; readonly placeholder: string }>;
};

/** Written anew like every upload, so that what somebody else packed is decoded here once, and never handed on as it came. */
async function takePictures(
  { file: { pictures, rows }, unpack }: Arrival,
  { runtime, intake, folder, files }: Taking,
): Promise<void> {
  for (const picture of pictures) {
    const row = rows.photo.find(({ id }) => id === picture.photo);
    if (!row || row.removed_at !== null || files.has(picture.photo))
      throw refused('The pictures in this file are not those of its evaluation.');
    const path = join(folder, 'picture');
    const names = { file: runtime.random.id(), thumb: runtime.random.id() };
    await unpack(picture, path);
    // Named before they are written, so that a refusal finds what to remove.
    files.set(picture.photo, { ...names, placeholder: '' });
    const media = await takeOne(intake, { ...names, path, folder: picturesFolder(runtime.db) });
    if (media.kind !== row.kind || media.contentType !== row.content_type)
      throw refused('A picture in this file is of another kind than its evaluation says.');
    files.set(picture.photo, {
      file: names.file,
      thumb: media.kind === 'picture' ? names.thumb : null,
      placeholder: media.placeholder,
    });
    await rm(path);
  }
}

async function takeOne(intake: Intake, upload: Parameters<Intake>[0]): ReturnType<Intake> {
  try {
    return await intake(upload);
  } catch (error) {
    if (error instanceof DomainError && error.code !== 'busy') throw refused('A picture in this file cannot be read.');
    throw error;
  }
}

/** A fresh folder for one arrival, for this account alone. */
export const newArrival = (db: Db): Promise<string> => mkdtemp(join(dirname(db.$client.name), arriving));

/** What a stop or a power cut left of arrivals that broke off. */
export function removeArrivals(db: Db): void {
  const folder = dirname(db.$client.name);
  for (const name of readdirSync(folder))
    if (name.startsWith(arriving)) rmSync(join(folder, name), { recursive: true, force: true });
}
