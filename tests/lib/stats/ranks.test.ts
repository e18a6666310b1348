import { describe, expect, it } from 'vitest';
import { isUndefined } from '#lib/stats/coefficient';
import { kendallW, resampledW } from '#lib/stats/kendallW';
import { rankCorrelations, type CorrelationKind } from '#lib/stats/rankCorrelations';
import type { ScoreTable } from '#lib/stats/scoreTable';
import {
  expectWithin,
  readReferenceCase,
  titled,
  type ExpectedEntry,
  type Levels,
  type ReferenceCase,
} from './referenceCase';

const ids = [
  'ranks-expsy',
  'ranks-missing-pairwise',
  'ranks-shrout-fleiss',
  'ranks-untied',
  'ranks-wine-rating',
  'ranks-wine-response',
];
const kinds: Record<string, CorrelationKind> = { spearman: 'spearman', kendall_tau_b: 'tau-b', pearson: 'pearson' };

function checkCorrelations(
  { data }: ReferenceCase,
  { entry, kind }: { entry: ExpectedEntry; kind: CorrelationKind },
): void {
  const labels = data['column_labels'] as string[];
  const got = rankCorrelations(data['values'] as ScoreTable, kind);
  const stored = entry.values as Levels;
  const sizes = entry['n'] as Levels | undefined;
  expect(Object.keys(stored).length).toBe(got.pairs.length);
  for (const { raters, units, result } of got.pairs) {
    const key = `${labels[raters[0]] ?? ''}-${labels[raters[1]] ?? ''}`;
    const value = stored[key];
    if (value === null || value === undefined) expect(isUndefined(result), key).toBe(true);
    else expectWithin('value' in result ? result.value : NaN, value, { tolerance: entry.tolerance, what: key });
    if (sizes) expect(units, key).toBe(sizes[key]);
  }
  if (entry['mean'] !== undefined)
    expectWithin('value' in got.mean ? got.mean.value : NaN, entry['mean'] as number, {
      tolerance: entry.tolerance,
      what: 'mean',
    });
}

function checkW({ data }: ReferenceCase, entry: ExpectedEntry): void {
  const w = kendallW(data['values'] as ScoreTable);
  if (isUndefined(w)) throw new Error(w.undefined);
  const within = (what: string, got: number | undefined, stored: unknown): void =>
    expectWithin(got ?? NaN, stored as number, { tolerance: entry.tolerance, what });
  if (entry.statistic === 'mean_ranks') {
    Object.values(entry.values as Levels).forEach((value, i) => within(`mean rank ${i}`, w.meanRanks[i], value));
  } else if (entry.statistic === 'kendall_w_f_approximation') {
    within('F', w.fApproximation?.value, entry.value);
    for (const field of ['df1', 'df2', 'p'] as const) within(field, w.fApproximation?.[field], entry[field]);
  } else if (entry.options['ties'] === 'corrected') {
    within('W', w.value, entry.value);
    within('chi-square', w.chiSquare.value, entry['chi_square']);
    within('df', w.chiSquare.df, entry['df']);
    within('p', w.chiSquare.p, entry['p']);
  } else {
    within('W uncorrected', w.uncorrected, entry.value);
    within('chi-square uncorrected', w.raters * (w.units - 1) * w.uncorrected, entry['chi_square']);
  }
}

describe.each(ids)('%s', (id) => {
  const reference = readReferenceCase(id);
  it.each(titled(id, reference.expected))('%s', (_title, entry) => {
    const kind = kinds[entry.statistic];
    if (kind) checkCorrelations(reference, { entry, kind });
    else checkW(reference, entry);
  });
});

describe('concordance', () => {
  it('ST1: undefined: no scores, one rater, fewer than two complete units, no variation', () => {
    expect(kendallW([])).toEqual({ undefined: 'no scores' });
    expect(kendallW([[1], [2]])).toEqual({ undefined: 'one rater' });
    expect(
      kendallW([
        [1, 2],
        [2, null],
      ]),
    ).toEqual({ undefined: 'fewer than two units' });
    expect(
      kendallW([
        [3, 1],
        [3, 1],
        [3, 1],
      ]),
    ).toEqual({ undefined: 'no variation' });
    expect(
      rankCorrelations(
        [
          [1, 1],
          [1, 2],
        ],
        'spearman',
      ).mean,
    ).toEqual({ undefined: 'no pair of raters with a defined value' });
  });

  it('ST2: the resampled form at one draw each is the statistic, and a unit drawn twice ties with itself', () => {
    const table = [
      [1, 2, 2],
      [3, 3, 1],
      [2, 4, 3],
      [5, 1, 4],
    ];
    const statistic = resampledW(table);
    if (isUndefined(statistic)) throw new Error(statistic.undefined);
    const plain = kendallW(table);
    expect(statistic.evaluate([1, 1, 1, 1])).toBeCloseTo(isUndefined(plain) ? NaN : plain.value, 12);
    // canonicalTable sorts the units; drawing all of them twice must equal W of the doubled table whatever the order.
    const doubled = kendallW([...table, ...table]);
    expect(statistic.evaluate([2, 2, 2, 2])).toBeCloseTo(isUndefined(doubled) ? NaN : doubled.value, 12);
  });
});
