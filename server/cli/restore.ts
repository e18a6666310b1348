import { resolve } from 'node:path';
import { backupsIn, dataFileIn } from '../backup/openData';
import { restoreData, RestoreRefused, type RestoreReport } from '../backup/restoreData';
import { readSettings } from '../readSettings';
import { type CliOutput, processOutput } from './cliOutput';
import { readArguments } from './readArguments';

const usage = (folder: string) =>
  `Usage: npm run restore -- FILE\nBackups lie in ${folder}. Stop the server first; EVENSTACK_DATA names another data folder.`;

/** `npm run restore -- FILE`: puts a checked backup in the place of the data file. 0 when done, 1 when refused, 2 for wrong arguments. */
export async function restoreCommand(args: readonly string[], output: CliOutput = processOutput): Promise<number> {
  const { dataFolder } = readSettings({ env: process.env, args: [], folder: process.cwd() });
  const read = readArguments(args, { flags: [], values: [] });
  const [backup, ...more] = 'fault' in read ? [] : read.files;
  if (backup === undefined || more.length > 0) {
    output.complain(usage(backupsIn(dataFolder)));
    return 2;
  }
  try {
    const report = await restoreData({ backup: resolve(backup), file: dataFileIn(dataFolder), at: Date.now() });
    for (const line of linesOf(report)) output.answer(line);
    return 0;
  } catch (error) {
    if (!(error instanceof RestoreRefused)) throw error;
    output.complain(`${error.message} Nothing was changed.`);
    return 1;
  }
}

function linesOf({ keptAs, current, closed, lost, pictures }: RestoreReport): string[] {
  const asked =
    current === 'related' ? [] : ['The replaced file could not say what had been revealed since this backup was made.'];
  return [
    'The backup is in place, and the record says so.',
    ...(keptAs === null ? [] : [`The file it replaces is kept as ${keptAs}.`]),
    ...lost.map((words) => `Not in the backup: ${words}.`),
    ...picturesTold(pictures),
    ...asked,
    ...closed.rounds.map((round) => `It came back closed: ${round}. The owner may reopen it, on the record.`),
    ...closed.looks.map(
      (looks) =>
        `They came back closed: ${looks}. Whoever leads may show the answers given by then; nobody answers any more.`,
    ),
  ];
}

function picturesTold(pictures: RestoreReport['pictures']): string[] {
  if (pictures === null) return ['Pictures that are missing could not be brought back: the disk failed.'];
  const { brought, missing, damaged } = pictures;
  return [
    ...(brought > 0 ? [`Brought back from the copies: ${brought} picture files that were missing.`] : []),
    ...(missing > 0 ? [`Missing, and without a copy: ${missing} picture files.`] : []),
    ...(damaged > 0 ? [`Missing, and the copy is damaged: ${damaged} picture files.`] : []),
  ];
}
