import { intercept, interactionFactor, labelledFactor, type MixedModel } from '#lib/stats/mixedModel';
import type { ReferenceCase } from './referenceCase';

type Labelled = { readonly model: MixedModel; readonly labels: Readonly<Record<string, readonly string[]>> };
type Cell = string | number;

/** The model each stored case states, built from its long records or its table. */
export function modelOf(reference: ReferenceCase): Labelled {
  return reference.data.format === 'matrix' ? tableModel(reference) : recordModel(reference);
}

function tableModel(reference: ReferenceCase): Labelled {
  const rows = reference.data['values'] as (number | null)[][];
  const targets = reference.data['row_labels'] as string[];
  const raters = reference.data['column_labels'] as string[];
  const cells = rows.flatMap((row, i) =>
    row.flatMap((score, j) => (score === null ? [] : [{ score, target: targets[i] ?? '', rater: raters[j] ?? '' }])),
  );
  const target = labelledFactor(
    'target',
    cells.map((cell) => cell.target),
  );
  const rater = labelledFactor(
    'rater',
    cells.map((cell) => cell.rater),
  );
  const model = {
    response: cells.map((cell) => cell.score),
    fixed: [intercept(cells.length)],
    factors: [target, rater],
  };
  return { model, labels: { target: target.labels, rater: rater.labels } };
}

const randomTerms: Record<string, readonly string[]> = {
  'lmm-criteria-fixed-missing': ['p', 'j', 'pj', 'pt', 'jt'],
  'lmm-dyestuff2-zero': ['batch'],
  'lmm-insteval-dept15': ['s', 'd'],
  'lmm-oxide-nested': ['lot', 'wafer'],
  'lmm-penicillin': ['plate', 'sample'],
  'lmm-wine-crossed': ['bottle', 'judge'],
  'lmm-wine-fixed-effects': ['judge'],
  'gstudy-brennan-pxi': ['p', 'i'],
};

function recordModel(reference: ReferenceCase): Labelled {
  const columns = reference.data['columns'] as string[];
  const rows = reference.data['rows'] as Cell[][];
  const column = (name: string): Cell[] => rows.map((row) => row[columns.indexOf(name)] ?? '');
  const main = (randomTerms[reference.id] ?? ['p', 'j', 't']).map((name) => labelledFactor(name, column(name)));
  const factors = randomTerms[reference.id] ? main : [...main, ...twoWay(main)];
  const model = { response: column('y').map(Number), fixed: fixedColumns(reference.id, column), factors };
  return { model, labels: Object.fromEntries(main.map(({ name, labels }) => [name, labels])) };
}

function twoWay(main: ReturnType<typeof labelledFactor>[]) {
  const pairs = [
    [0, 1],
    [0, 2],
    [1, 2],
  ] as const;
  return pairs.map(([a, b]) => {
    const [first, second] = [main[a], main[b]];
    if (!first || !second) throw new Error('three facets expected');
    return interactionFactor(`${first.name}:${second.name}`, [first, second]);
  });
}

/** Treatment coding, first level the reference. */
function fixedColumns(id: string, column: (name: string) => Cell[]): number[][] {
  const ones = intercept(column('y').length);
  const dummy = (name: string, level: Cell): number[] => column(name).map((value) => (value === level ? 1 : 0));
  if (id === 'lmm-criteria-fixed-missing') {
    const levels = [...new Set(column('t'))];
    return [ones, ...levels.slice(1).map((level) => dummy('t', level))];
  }
  if (id === 'lmm-wine-fixed-effects') {
    const warm = dummy('temp', 'warm');
    const yes = dummy('contact', 'yes');
    return [ones, warm, yes, warm.map((value, i) => value * (yes[i] ?? 0))];
  }
  return [ones];
}
