import { describe, expect, it } from 'vitest';
import { isUndefined } from '#lib/stats/coefficient';
import { fUpperTail } from '#lib/stats/fDistribution';
import { ICC_FORMS, intraclassCorrelations, type IccForm } from '#lib/stats/intraclassCorrelation';
import { measurementError } from '#lib/stats/measurementError';
import type { ScoreTable } from '#lib/stats/scoreTable';
import { twoWayComponents, twoWayMeanSquares } from '#lib/stats/twoWayMeanSquares';
import {
  expectWithin,
  readReferenceCase,
  titled,
  type ExpectedEntry,
  type Levels,
  type ReferenceCase,
} from './referenceCase';

const ids = [
  'icc-complete-wine-rating-reml',
  'icc-edge-constant',
  'icc-edge-identical-raters',
  'icc-edge-no-target-variance',
  'icc-edge-parallel-raters',
  'icc-expsy-complete',
  'icc-missing-expsy',
  'icc-missing-penicillin',
  'icc-missing-shrout-fleiss',
  'icc-missing-wine-response',
  'icc-negative',
  'icc-penicillin',
  'icc-scale-1000x20',
  'icc-shrout-fleiss-1979',
  'icc-sim-10x5',
  'icc-two-raters',
  'icc-wine-rating',
  'icc-wine-response',
];

const formNames: Record<string, IccForm> = {
  'ICC(1,1)': '1',
  'ICC(2,1)': 'A,1',
  'ICC(3,1)': 'C,1',
  'ICC(1,k)': 'k',
  'ICC(2,k)': 'A,k',
  'ICC(3,k)': 'C,k',
  'ICC(A,1)': 'A,1',
  'ICC(A,k)': 'A,k',
  'ICC(C,1)': 'C,1',
  'ICC(C,k)': 'C,k',
};

/** Statistics of the mixed model itself are checked in mixedModel.test.ts. */
const here = new Set([
  'icc',
  'anova_mean_squares',
  'variance_components_anova',
  'sem_agreement',
  'sem_consistency',
  'target_means',
  'rater_means',
]);

function tableOf(reference: ReferenceCase): ScoreTable {
  return reference.data.format === 'generated' ? generatedTable(reference) : (reference.data['values'] as ScoreTable);
}

/** The stored rule: a multiplicative congruential generator, targets first, then raters, then cells. */
function generatedTable({ data }: ReferenceCase): ScoreTable {
  let state = data['seed'] as number;
  const draw = (): number => {
    state = (16807 * state) % 2147483647;
    return state / 2147483647;
  };
  const targets = Array.from({ length: data['n'] as number }, draw);
  const raters = Array.from({ length: data['k'] as number }, draw);
  const table = targets.map((a) => raters.map((b) => 1 + Math.floor(10 * (0.45 * a + 0.15 * b + 0.4 * draw()))));
  const check = data['check'] as { first_row: number[]; last_row: number[]; sum: number };
  expect([table[0], table[table.length - 1], table.flat().reduce((sum, score) => sum + score, 0)]).toEqual([
    check.first_row,
    check.last_row,
    check.sum,
  ]);
  return table;
}

function checkIcc(table: ScoreTable, entry: ExpectedEntry): void {
  const form = formNames[String(entry.options['form'])];
  if (form === undefined) throw new Error('unknown form');
  const level = (entry['ci'] as { level: number } | undefined)?.level ?? 0.95;
  const result = intraclassCorrelations(table, level)[form];
  if (entry.undefined === true) {
    expect(result).toEqual({ undefined: 'no variation' });
    return;
  }
  if (isUndefined(result) || typeof entry.value !== 'number') throw new Error(`undefined ${form}`);
  const harmonic = entry.options['k'] !== undefined && entry.options['k'] !== table[0]?.length;
  const value = harmonic
    ? rescaled(result.value, (table[0]?.length ?? 0) / (entry.options['k'] as number))
    : result.value;
  expectWithin(value, entry.value, { tolerance: entry.tolerance, what: form });
  const interval = entry['ci'] as { lower: number; upper: number } | undefined;
  if (!interval) return;
  expectWithin(result.low ?? NaN, interval.lower, { tolerance: entry.tolerance, what: `${form} low` });
  expectWithin(result.high ?? NaN, interval.upper, { tolerance: entry.tolerance, what: `${form} high` });
  checkTest(table, { entry, form });
}

/** From the mean of `from` raters to the mean of another number: the error share grows by their ratio. */
const rescaled = (icc: number, ratio: number): number => icc / (icc + (1 - icc) * ratio);

function checkTest(table: ScoreTable, { entry, form }: { entry: ExpectedEntry; form: IccForm }): void {
  const { between, within, error, units, raters } = twoWayMeanSquares(table);
  const oneWay = form === '1' || form === 'k';
  const ratio = between / (oneWay ? within : error);
  const degrees = { df1: units - 1, df2: oneWay ? units * (raters - 1) : (units - 1) * (raters - 1) };
  expectWithin(ratio, entry['F'] as number, { tolerance: entry.tolerance, what: 'F' });
  expect(degrees).toEqual({ df1: entry['df1'], df2: entry['df2'] });
  expectWithin(fUpperTail(ratio, degrees), entry['p'] as number, { tolerance: entry.tolerance, what: 'p' });
}

function checkSquares(table: ScoreTable, entry: ExpectedEntry): void {
  const squares = twoWayMeanSquares(table);
  const { unit, rater, residual } = twoWayComponents(squares);
  const { agreement, consistency } = measurementError({ unit, rater, residual });
  const got: Record<string, Record<string, number>> = {
    anova_mean_squares: { MSR: squares.between, MSC: squares.raterSquare, MSE: squares.error, MSW: squares.within },
    variance_components_anova: { target: unit, rater, residual },
    sem_agreement: { value: agreement },
    sem_consistency: { value: consistency },
  };
  const ours = got[entry.statistic] ?? {};
  const stored = (entry.values as Levels | undefined) ?? { value: entry.value ?? NaN };
  for (const [key, value] of Object.entries(stored))
    expectWithin(ours[key] ?? NaN, value ?? NaN, { tolerance: entry.tolerance, what: `${entry.statistic} ${key}` });
}

function checkMeans(table: ScoreTable, entry: ExpectedEntry): void {
  const lines =
    entry.statistic === 'target_means' ? table : (table[0] ?? []).map((_, j) => table.map((row) => row[j] ?? null));
  const stored = Object.values(entry.values as Levels);
  expect(stored.length).toBe(lines.length);
  stored.forEach((value, at) => {
    const line = lines[at] ?? [];
    expectWithin(line.reduce<number>((sum, score) => sum + (score ?? 0), 0) / line.length, value ?? NaN, {
      tolerance: entry.tolerance,
      what: 'mean',
    });
  });
}

describe.each(ids)('%s', (id) => {
  const reference = readReferenceCase(id);
  const table = tableOf(reference);
  const ours = reference.expected.filter(({ statistic }) => here.has(statistic));
  it.each(titled(id, ours))('%s', (_title, entry) => {
    if (entry.statistic === 'icc') {
      // Stored from REML on a complete table: ours is the mean-square estimate, which must be the same number.
      checkIcc(table, entry);
    } else if (entry.statistic.endsWith('means')) checkMeans(table, entry);
    else checkSquares(table, entry);
  });
});

describe('undefined and degenerate intraclass correlations', () => {
  it.each([
    ['no scores', []],
    ['one rater', [[1], [2], [3]]],
    ['fewer than two units', [[1, 2, 3]]],
    [
      'fewer than two scores in every unit',
      [
        [1, null],
        [null, 2],
      ],
    ],
    [
      'no variation',
      [
        [4, 4],
        [4, 4],
      ],
    ],
    [
      'no variation',
      [
        [4, 4],
        [4, null],
      ],
    ],
  ] as [string, ScoreTable][])('ST1: %s', (reason, table) => {
    const results = intraclassCorrelations(table);
    for (const form of ICC_FORMS) expect(results[form]).toEqual({ undefined: reason });
  });

  it('ST1: icc-edge-no-target-variance: the mean forms divide by zero and say so', () => {
    const results = intraclassCorrelations([
      [1, 2, 3],
      [2, 3, 1],
      [3, 1, 2],
      [1, 3, 2],
    ]);
    expect(results.k).toEqual({ undefined: 'no variation between units' });
    expect(results['C,k']).toEqual({ undefined: 'no variation between units' });
  });

  it('ST1: icc-edge-parallel-raters: no residual gives finite limits or none', () => {
    const results = intraclassCorrelations([
      [2, 3, 5],
      [5, 6, 8],
      [3, 4, 6],
      [7, 8, 10],
      [4, 5, 7],
    ]);
    expect(results['C,1']).toEqual({ value: 1, low: 1, high: 1 });
    expect(results['A,1']).toMatchObject({ low: null, high: null });
  });

  it('ST1: a table with gaps and no residual: consistency 1, agreement by the spread of the parts', () => {
    const results = intraclassCorrelations([
      [1, 3],
      [2, 4],
      [4, null],
    ]);
    expect(results['C,1']).toEqual({ value: 1, low: null, high: null });
    // Unit parts 0, 1, 3: variance 7/3. Rater parts 0, 2: variance 2.
    expect(isUndefined(results['A,1']) ? NaN : results['A,1'].value).toBeCloseTo(7 / 3 / (7 / 3 + 2), 12);
  });

  it('ST1: identical raters with gaps agree perfectly in every form', () => {
    const results = intraclassCorrelations([
      [1, 1, null],
      [2, null, 2],
      [null, 5, 5],
    ]);
    for (const form of ICC_FORMS) expect(results[form]).toMatchObject({ value: 1 });
  });
});
