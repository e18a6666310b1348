import type { DegreeCosts } from '#lib/reconcile/panel/degreeCost';
import type { Panel } from '#lib/reconcile/panel/panel';
import { type CsvError, type CsvFault, type Field, firstFault, parseTable, type TableRow } from './parseTable';

export const scoreColumns = ['puppy', 'evaluator', 'criterion', 'score'] as const;
type ScoreColumn = (typeof scoreColumns)[number];

type ScoreOptions = {
  readonly scale: { readonly low: number; readonly high: number };
  /** Criteria whose scores are signed degrees in -3..3. */
  readonly twoSided: ReadonlySet<string>;
  readonly maxCharacters: number;
};

/** One cell; a null score was left blank: not judged. `columns` says where each field stood, for faults found later. */
export type ScoreRow = {
  readonly puppy: string;
  readonly evaluator: string;
  readonly criterion: string;
  readonly score: number | null;
  readonly line: number;
  readonly columns: Readonly<Record<ScoreColumn, number>>;
};

/**
 * Reads `puppy,evaluator,criterion,score`. All or nothing: with a single fault no row is handed over.
 * A cell may come once, blank or not; scores are plain decimals on the scale.
 */
export function parseScores(text: string, options: ScoreOptions): { rows: ScoreRow[] } | { error: CsvError } {
  const table = parseTable(text, { names: scoreColumns, maxCharacters: options.maxCharacters });
  const faults: CsvFault[] = [...table.faults];
  const seen = new Map<string, number>();
  const rows = table.rows.map((row) => {
    const score = readScore(row('score'), boundsOf(row('criterion').text, options));
    faults.push(...namesFaults(row), ...(score.fault ? [score.fault] : []), ...repeatFaults(row, seen));
    return scoreRow(row, score.value);
  });
  if (rows.length === 0 && faults.length === 0)
    faults.push({ line: 2, column: 1, message: 'There is no line under the heading.' });
  const error = firstFault(faults);
  return error ? { error } : { rows };
}

function boundsOf(criterion: string, { scale, twoSided }: ScoreOptions): ScoreOptions['scale'] {
  return twoSided.has(criterion) ? { low: -3, high: 3 } : scale;
}

function namesFaults(row: TableRow<ScoreColumn>): CsvFault[] {
  const found = [
    nameFault(row('puppy'), 'puppy'),
    nameFault(row('evaluator'), 'evaluator'),
    nameFault(row('criterion'), 'criterion'),
  ];
  return found.filter((fault) => fault !== null);
}

function readScore(
  { text, line, column }: Field,
  { low, high }: ScoreOptions['scale'],
): { value: number | null; fault: CsvFault | null } {
  if (text === '') return { value: null, fault: null };
  const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
  const shown = text.length > 40 ? `${text.slice(0, 40)}…` : text;
  if (Number.isNaN(value))
    return {
      value: null,
      fault: { line, column, message: `The score ${JSON.stringify(shown)} is not a plain decimal number.` },
    };
  if (value < low || value > high)
    return { value: null, fault: { line, column, message: `The score ${shown} is off the scale ${low}..${high}.` } };
  // A negative zero is the same score as zero.
  return { value: value === 0 ? 0 : value, fault: null };
}

function repeatFaults(row: TableRow<ScoreColumn>, seen: Map<string, number>): CsvFault[] {
  const cell = JSON.stringify([row('puppy').text, row('evaluator').text, row('criterion').text]);
  const { line, column } = row('score');
  const before = seen.get(cell);
  if (before !== undefined)
    return [{ line, column, message: `The same puppy, evaluator and criterion stand on line ${before} already.` }];
  seen.set(cell, line);
  return [];
}

function scoreRow(row: TableRow<ScoreColumn>, score: number | null): ScoreRow {
  const [puppy, evaluator, criterion] = [row('puppy'), row('evaluator'), row('criterion')];
  return {
    puppy: puppy.text,
    evaluator: evaluator.text,
    criterion: criterion.text,
    score,
    line: puppy.line,
    columns: {
      puppy: puppy.column,
      evaluator: evaluator.column,
      criterion: criterion.column,
      score: row('score').column,
    },
  };
}

const nameLimit = 200;

/** What is wrong with a field that has to name something, if anything is. */
export function nameFault({ text, line, column }: Field, what: string): CsvFault | null {
  if (text === '') return { line, column, message: `The ${what} is blank.` };
  if (text.length > nameLimit) return { line, column, message: `The ${what} is longer than ${nameLimit} characters.` };
  if (/\p{Cc}/u.test(text)) return { line, column, message: `The ${what} holds a line break or a control character.` };
  return null;
}

/** The panel a file describes, in alphabetical order whatever the order of its lines (ST2). Blank cells make no score, but their names count. */
export function panelOfScores(
  rows: readonly ScoreRow[],
  { scale, twoSided, cost = null }: Pick<ScoreOptions, 'scale' | 'twoSided'> & { readonly cost?: DegreeCosts | null },
): Panel {
  const names = (of: (row: ScoreRow) => string) => [...new Set(rows.map(of))].sort();
  const scores = rows.flatMap(({ puppy, evaluator, criterion, score }) =>
    score === null ? [] : [{ puppy, evaluator, criterion, value: score }],
  );
  const place = (score: (typeof scores)[number]) => JSON.stringify([score.puppy, score.evaluator, score.criterion]);
  return {
    scale,
    puppies: names((row) => row.puppy),
    evaluators: names((row) => row.evaluator),
    criteria: names((row) => row.criterion).map((key) => ({
      key,
      twoSided: twoSided.has(key),
      ...(cost && twoSided.has(key) ? { cost } : {}),
    })),
    scores: scores.sort((a, b) => (place(a) < place(b) ? -1 : 1)),
  };
}
