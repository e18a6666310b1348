import { standOfFile } from '#db/migrateSafely';
import { dataFileIn } from '../backup/openData';
import { readSettings } from '../readSettings';
import { verifyData, type DataReport } from '../reveal/verifyData';
import { type CliOutput, processOutput } from './cliOutput';
import { readArguments } from './readArguments';

/**
 * `npm run -s verify -- [--json] [FILE …]`: checks data files, without changing them, while the server runs or not. Says
 * where something is wrong, never what was scored. Without a file it checks the one of the data folder.
 * @returns 0 when all are sound; 1 when something is wrong; 2 for wrong arguments.
 */
export async function verifyCommand(args: readonly string[], output: CliOutput = processOutput): Promise<number> {
  const { dataFolder } = readSettings({ env: process.env, args: [], folder: process.cwd() });
  const named = args.some((argument) => !argument.startsWith('--'));
  const read = readArguments(named ? args : [...args, dataFileIn(dataFolder)], { flags: ['--json'], values: [] });
  if ('fault' in read) {
    output.complain(read.fault);
    return 2;
  }
  const json = read.flags.has('--json');
  const reports = read.files.map((file) => ({ file, report: verifyFile(file) }));
  for (const { file, report } of reports) {
    if (json) output.answer(JSON.stringify({ file, ...report }));
    else for (const line of linesOf(file, report)) output.answer(line);
  }
  return reports.every(({ report }) => report.sound) ? 0 : 1;
}

type Verdict = { readonly sound: boolean; readonly faults: DataReport['faults'] } & Partial<Omit<DataReport, 'faults'>>;

function verifyFile(file: string): Verdict {
  const unusable = (words: string): Verdict => ({ sound: false, faults: [{ what: 'file', id: '', words }] });
  try {
    const stand = standOfFile(file);
    if (stand === 'older')
      return unusable('the file was written by an earlier version: start the server once, which brings it up to date');
    if (stand !== 'current')
      return unusable(
        stand === 'newer' ? 'the file was written by a later version' : 'this is no data file of this app',
      );
    const report = verifyData(file);
    return { sound: report.faults.length === 0, ...report };
  } catch (error) {
    // SQLite's own words name pages and tables; none of ours holds what a row says.
    return unusable(error instanceof Error ? error.message : 'the file cannot be read');
  }
}

function linesOf(file: string, { sound, faults, ...counts }: Verdict): string[] {
  const found = faults.map(({ what, id, words }) => `  ${what}${id === '' ? '' : ` ${id}`}: ${words}`);
  const {
    lines,
    entries,
    commitments,
    snapshots,
    wordsRemoved = 0,
    unbound = 0,
    untold = 0,
    recomputed = 0,
    notRecomputed = 0,
    head,
  } = counts;
  if (lines === undefined) return [`${file}: NOT SOUND`, ...found];
  return [
    `${file}: ${sound ? 'sound' : 'NOT SOUND'}`,
    ...found,
    `  record: ${lines} lines, head ${head ?? 'none'}`,
    `  entries: ${entries}, commitments: ${commitments}, snapshots: ${snapshots}`,
    ...(wordsRemoved > 0
      ? [`  ${wordsRemoved} of the commitments cannot be made again: the person's words were removed`]
      : []),
    ...(untold > 0 ? [`  evaluations the record does not tell of, from an earlier version: ${untold}, not bound`] : []),
    ...(unbound > 0
      ? [`  not bound, because an earlier version wrote it: ${unbound} (it can be neither shown nor refuted)`]
      : []),
    ...(recomputed + notRecomputed > 0
      ? [
          `  results computed again: ${recomputed}; not recomputed: ${notRecomputed} (of another engine version, or proposals of second looks${sound ? '' : ', or left, because something else is wrong'})`,
        ]
      : []),
    '  Whoever can write the file could write the whole record anew, under another head: compare this one with the head that the devices have seen (page Record).',
  ];
}
