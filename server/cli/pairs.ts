import { bradleyTerry } from '#lib/stats/bradleyTerry';
import { isUndefined, type Undefined } from '#lib/stats/coefficient';
import type { Ability } from '#lib/stats/comparisonAbilities';
import { davidson } from '#lib/stats/davidson';
import type { PairCounts } from '#lib/stats/pairedComparisons';
import { type PairRow, parsePairs } from '../csv/parsePairs';
import { type CliOutput, processOutput, textColumns } from './cliOutput';
import { fileFault, mostBytes, readScoreFile } from './readScoreFile';
import { readArguments } from './readArguments';

export type PairsReport =
  | {
      /** Best first; abilities are log worths that sum to zero. */
      readonly items: readonly Ability[];
      /** log ν of Davidson's ties; null when there was none, and the model is Bradley and Terry's. */
      readonly logNu: number | null;
      readonly logLikelihood: number;
    }
  | Undefined;

/**
 * Abilities from the comparisons in one file, or why there is no finite estimate.
 * @returns 0; 1 when the file could not be used; 2 when the arguments say nothing that can be done.
 */
export async function pairsCommand(args: readonly string[], output: CliOutput = processOutput): Promise<number> {
  const read = readArguments(args, { flags: ['--json'], values: [] });
  const fault = 'fault' in read ? read.fault : read.files.length > 1 ? 'Name one file only.' : null;
  if ('fault' in read || fault !== null) {
    output.complain(fault ?? '');
    return 2;
  }
  const [file = ''] = read.files;
  const json = read.flags.has('--json');
  const content = await readScoreFile(file);
  const parsed = 'error' in content ? content : parsePairs(content.text, mostBytes);
  if ('error' in parsed) {
    fileFault({ file, error: parsed.error }, { json, output });
    return 1;
  }
  const report = pairsReport(parsed.rows);
  output.answer(json ? JSON.stringify(report) : pairsTable(report));
  return 0;
}

export function pairsReport(rows: readonly PairRow[]): PairsReport {
  const counts = countPairs(rows);
  const tied = rows.some(({ choice }) => choice === 'tie');
  const fit = tied ? davidson(counts) : bradleyTerry(counts);
  if (isUndefined(fit)) return fit;
  const items = [...fit.centred].sort((a, b) => b.ability - a.ability);
  return { items, logNu: 'logNu' in fit ? fit.logNu.value : null, logLikelihood: fit.logLikelihood };
}

/** One count a pair, whichever of the two its lines name first. */
function countPairs(rows: readonly PairRow[]): PairCounts[] {
  const counts = new Map<string, PairCounts>();
  for (const row of rows) {
    const turned = row.first > row.second;
    const [first, second] = turned ? [row.second, row.first] : [row.first, row.second];
    const winner = row.choice === 'tie' ? null : (row.choice === 'first') === turned ? second : first;
    const key = JSON.stringify([first, second]);
    const { firstWins, secondWins, ties } = counts.get(key) ?? { firstWins: 0, secondWins: 0, ties: 0 };
    counts.set(key, {
      first,
      second,
      firstWins: firstWins + (winner === first ? 1 : 0),
      secondWins: secondWins + (winner === second ? 1 : 0),
      ties: ties + (winner === null ? 1 : 0),
    });
  }
  return [...counts.values()];
}

function pairsTable(report: PairsReport): string {
  if (isUndefined(report)) return `No finite estimates: ${report.undefined}.`;
  const rows = report.items.map(({ item, ability, se }) => [item, ability.toFixed(3), se.toFixed(3)]);
  return [
    ...textColumns([['item', 'ability', 'standard error'], ...rows]),
    `log nu ${report.logNu === null ? 'none: no ties' : report.logNu.toFixed(3)}, log likelihood ${report.logLikelihood.toFixed(3)}`,
  ].join('\n');
}
