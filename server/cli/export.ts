import { createWriteStream } from 'node:fs';
import { rm } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { standOfFile } from '#db/migrateSafely';
import { openReadOnly } from '#db/open';
import { DomainError, type DomainErrorCode } from '#lib/errors';
import { dataFileIn } from '../backup/openData';
import { evaluationZip } from '../carry/evaluationZip';
import { readSettings } from '../readSettings';
import { takeEvaluation } from '../reveal/evaluationFile';
import { type CliOutput, processOutput } from './cliOutput';
import { readArguments } from './readArguments';

const usage =
  'Usage: npm run -s export -- EVALUATION FILE\nEVALUATION is the id in the address of its pages (id=…); FILE is the zip to write. EVENSTACK_DATA names another data folder.';

const refusals: Partial<Record<DomainErrorCode, string>> = {
  'not-found': 'There is no such evaluation.',
  'wrong-phase': 'Nothing of this evaluation is revealed yet.',
  'still-open': 'A round or a second look of this evaluation is still to be revealed.',
  anonymous: 'This panel is anonymous: the file would say who gave which score.',
  'not-bound': 'This evaluation was begun under an earlier version; its record does not bind all of it.',
};

/** `npm run -s export -- EVALUATION FILE`: one revealed evaluation with its pictures, while the server runs or not. 0 when written, 1 when refused, 2 for wrong arguments. */
export async function exportCommand(args: readonly string[], output: CliOutput = processOutput): Promise<number> {
  const { dataFolder } = readSettings({ env: process.env, args: [], folder: process.cwd() });
  const read = readArguments(args, { flags: [], values: [] });
  const [id, target, ...more] = 'fault' in read ? [] : read.files;
  if (id === undefined || target === undefined || more.length > 0) {
    output.complain(usage);
    return 2;
  }
  const refused = await write(dataFileIn(dataFolder), id, target);
  if (refused === null) output.answer(`Written: ${target}. It holds every name and score of this evaluation.`);
  else output.complain(`${refused} Nothing was written.`);
  return refused === null ? 0 : 1;
}

/** Null once written. A file that is there is not written over, and half a file is not left. */
async function write(dataFile: string, id: string, target: string): Promise<string | null> {
  let begun = false;
  try {
    if (standOfFile(dataFile) !== 'current')
      return 'The data file is not of this version of Evenstack: start the server once.';
    const db = openReadOnly(dataFile);
    try {
      const zip = await evaluationZip(db, takeEvaluation(db, id, Date.now()));
      const file = createWriteStream(target, { flags: 'wx', mode: 0o600 }).once('open', () => (begun = true));
      await pipeline(zip, file);
      return null;
    } finally {
      db.$client.close();
    }
  } catch (error) {
    if (begun) await rm(target, { force: true });
    if (error instanceof DomainError) return refusals[error.code] ?? error.code;
    return `${error instanceof Error ? error.message : String(error)}.`;
  }
}
