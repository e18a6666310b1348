import type { CsvError } from '../csv/parseTable';
import { panelOfScores, parseScores } from '../csv/parseScores';
import { type CliOutput, processOutput } from './cliOutput';
import { fileFault, mostBytes, readScoreFile } from './readScoreFile';
import { type PanelReport, panelReport } from './panelReport';
import { type ReconcileOptions, reconcileOptions } from './reconcileOptions';
import { reportTable } from './reportTable';

/**
 * Reconciles each file by itself and prints one answer a file, in the order given. A file that cannot be used is answered with its
 * fault, and the others go on.
 * @param report makes the answer on one panel.
 * @returns 0; 1 when a file could not be used; 2 when the arguments say nothing that can be done.
 */
export async function reconcileCommand(
  args: readonly string[],
  output: CliOutput = processOutput,
  report = panelReport,
): Promise<number> {
  const options = reconcileOptions(args);
  if ('fault' in options) {
    output.complain(options.fault);
    return 2;
  }
  let status = 0;
  for (const file of options.files) {
    const result = await reconcileFile(file, options, report);
    if ('error' in result) {
      status = 1;
      fileFault({ file, error: result.error }, { json: options.json, output });
    } else {
      absentNames(result.names, options).forEach((notice) => output.complain(`${file}: ${notice}`));
      output.answer(options.json ? JSON.stringify({ file, ...result.report }) : reportTable(file, result.report));
    }
  }
  return status;
}

type FileResult = { readonly error: CsvError } | { readonly report: PanelReport; readonly names: ReadonlySet<string> };

async function reconcileFile(file: string, options: ReconcileOptions, report: typeof panelReport): Promise<FileResult> {
  const content = await readScoreFile(file);
  if ('error' in content) return content;
  const parsed = parseScores(content.text, { ...options, maxCharacters: mostBytes });
  if ('error' in parsed) return parsed;
  const panel = panelOfScores(parsed.rows, options);
  if (panel.scores.length === 0) return fault('No line holds a score.');
  if (panel.criteria.every(({ key }) => options.weights.get(key) === 0))
    return fault('Every criterion of this file has the weight 0.');
  try {
    return { report: report(panel, options), names: new Set(panel.criteria.map(({ key }) => key)) };
  } catch (error) {
    // A defect of ours, not of the file: told in full, and no reason to withhold the answers on the other files.
    return fault(
      `This file brought out a defect: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
    );
  }
}

/** A fault of the whole file: no line of it is to blame. */
function fault(message: string): { error: CsvError } {
  return { error: { line: 0, column: 0, message, more: 0 } };
}

/** Options that named a criterion this file does not have: said aloud, for a slip of the keyboard would go unnoticed. */
function absentNames(names: ReadonlySet<string>, { twoSided, weights }: ReconcileOptions): string[] {
  const absent = (option: string, asked: Iterable<string>) =>
    [...asked]
      .filter((name) => !names.has(name))
      .map((name) => `there is no criterion "${name}", which ${option} names.`);
  return [...absent('--two-sided', twoSided), ...absent('--weights', weights.keys())];
}
