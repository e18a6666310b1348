import { describe, expect, it } from 'vitest';
import { agreementWeights, type AgreementWeights, type WeightKind } from '#lib/stats/agreementWeights';
import { isUndefined } from '#lib/stats/coefficient';
import { coefficientInterval } from '#lib/stats/coefficientInterval';
import { fleissKappa } from '#lib/stats/fleissKappa';
import { lightCoefficient, lightKappa, listwise } from '#lib/stats/lightKappa';
import { percentAgreement } from '#lib/stats/percentAgreement';
import { raterPair } from '#lib/stats/raterPairs';
import { resampledLightKappa } from '#lib/stats/resampledLightKappa';
import type { ScoreTable } from '#lib/stats/scoreTable';
import { pairCounts, weightedKappa } from '#lib/stats/weightedKappa';
import {
  expectWithin,
  readReferenceCase,
  titled,
  type ExpectedEntry,
  type Levels,
  type ReferenceCase,
} from './referenceCase';

const ids = [
  'kappa-cohen-1968',
  'kappa-edge-one-category',
  'kappa-expsy-r1-r2',
  'kappa-fleiss-1971',
  'kappa-fleiss-expsy',
  'kappa-fleiss-wine',
  'kappa-light-expsy',
  'kappa-light-wine',
  'kappa-paradox-2x2',
  'kappa-visual-acuity',
  'kappa-wine-judges-1-5',
];

function weightsOf(entry: ExpectedEntry, categories: number): AgreementWeights {
  const matrix = entry.options['matrix'] as AgreementWeights | undefined;
  if (matrix) return matrix;
  const name = String(entry.options['weights']);
  return agreementWeights((name === 'unweighted' ? 'identity' : name) as WeightKind, categories);
}

function compareAll(entry: ExpectedEntry, pairs: readonly (readonly [string, unknown])[]): void {
  let compared = 0;
  for (const [field, got] of pairs) {
    if (entry[field] === undefined) continue;
    expectWithin(got as number, entry[field] as number, {
      tolerance: entry.tolerance,
      what: `${entry.statistic} ${field}`,
    });
    compared += 1;
  }
  expect(compared).toBeGreaterThan(0);
}

function checkPair(reference: ReferenceCase, entry: ExpectedEntry): void {
  const categories = entry.options['categories'] as number[] | undefined;
  const counts =
    reference.data.format === 'matrix'
      ? pairCounts(raterPair(reference.data['values'] as ScoreTable, [0, 1]), categories ?? [])
      : (reference.data['counts'] as number[][]);
  if (!counts) throw new Error('off the scale');
  const kappa = weightedKappa(counts, weightsOf(entry, counts.length));
  if (entry.undefined === true) {
    expect(kappa).toEqual({ undefined: 'chance agreement is certain' });
    return;
  }
  if (isUndefined(kappa)) throw new Error(kappa.undefined);
  const limits = entry['ci'] as { lower: number; upper: number } | undefined;
  compareAll(entry, [
    ['value', kappa.value],
    ['se', kappa.se],
    ['observed', kappa.observed],
    ['expected_by_chance', kappa.expected],
    ['se_null', kappa.test?.se],
    ['z', kappa.test?.z],
    ['p', kappa.test?.p],
  ]);
  if (limits) {
    expectWithin(kappa.low ?? NaN, limits.lower, { tolerance: entry.tolerance, what: 'low' });
    expectWithin(kappa.high ?? NaN, limits.upper, { tolerance: entry.tolerance, what: 'high' });
  }
  checkRatings(reference, counts);
}

/** Where the raw ratings are stored too, our own table of them must be the stored one. */
function checkRatings(reference: ReferenceCase, counts: readonly number[][]): void {
  const ratings = reference.data['ratings'] as { values: ScoreTable } | undefined;
  if (ratings)
    expect(pairCounts(raterPair(ratings.values, [0, 1]), reference.data['categories'] as number[])).toEqual(counts);
}

function checkLight(reference: ReferenceCase, entry: ExpectedEntry): void {
  const categories = entry.options['categories'] as number[];
  const all = reference.data['values'] as ScoreTable;
  const table = entry.options['missing'] === 'pairwise deletion' ? all : listwise(all);
  const light = lightKappa(table, { categories, weights: weightsOf(entry, categories.length) });
  if (isUndefined(light)) throw new Error(light.undefined);
  compareAll(entry, [['value', light.value]]);
  const labels = reference.data['column_labels'] as string[];
  const stored = Object.entries(entry['pairwise'] as Levels);
  expect(stored.length).toBe(light.pairs.length);
  for (const { raters, kappa } of light.pairs) {
    const value = Object.fromEntries(stored)[`${labels[raters[0]] ?? ''}-${labels[raters[1]] ?? ''}`] ?? NaN;
    expectWithin(isUndefined(kappa) ? NaN : kappa.value, value, { tolerance: entry.tolerance, what: raters.join('-') });
  }
}

function countsOf({ data }: ReferenceCase): number[][] {
  if (data.format === 'counts') return data['counts'] as number[][];
  const categories = data['categories'] as number[];
  return (data['values'] as ScoreTable).map((row) =>
    categories.map((category) => row.filter((score) => score === category).length),
  );
}

function checkFleiss(reference: ReferenceCase, entry: ExpectedEntry): void {
  const kappa = fleissKappa(countsOf(reference));
  if (isUndefined(kappa)) throw new Error(kappa.undefined);
  if (entry.statistic === 'randolph_kappa') compareAll(entry, [['value', kappa.freeMarginal]]);
  else if (entry.statistic === 'fleiss_kappa') {
    compareAll(entry, [
      ['value', kappa.value],
      ['observed', kappa.observed],
      ['expected_by_chance', kappa.expected],
      ['se_null', kappa.test?.se],
      ['z', kappa.test?.z],
      ['p', kappa.test?.p],
    ]);
  } else {
    compareAll(entry, [['se_null', kappa.categorySe]]);
    const stored = Object.values(entry.values as Levels);
    expect(stored.length).toBe(kappa.byCategory.length);
    stored.forEach((value, c) =>
      expectWithin(kappa.byCategory[c] ?? NaN, value ?? NaN, { tolerance: entry.tolerance, what: `category ${c}` }),
    );
  }
}

describe.each(ids)('%s', (id) => {
  const reference = readReferenceCase(id);
  it.each(titled(id, reference.expected))('%s', (_title, entry) => {
    if (entry.statistic === 'light_kappa') checkLight(reference, entry);
    else if (entry.statistic === 'percent_agreement') {
      const percent = percentAgreement(reference.data['values'] as ScoreTable);
      compareAll(entry, [['value', isUndefined(percent) ? NaN : percent.value]]);
    } else if (/fleiss|randolph/.test(entry.statistic)) checkFleiss(reference, entry);
    else checkPair(reference, entry);
  });
});

describe('undefined kappa', () => {
  const scale = { categories: [1, 2, 3], weights: agreementWeights('quadratic', 3) };
  it.each([
    ['no scores', []],
    ['one rater', [[1], [2]]],
    [
      'off the scale',
      [
        [1, 2.5],
        [2, 2],
      ],
    ],
    [
      'no pair of raters with a defined value',
      [
        [2, 2],
        [2, 2],
      ],
    ],
    [
      'no pair of raters with a defined value',
      [
        [1, null],
        [null, 2],
      ],
    ],
  ] as [string, ScoreTable][])("ST1: Light's kappa: %s", (reason, table) => {
    expect(lightKappa(table, scale)).toEqual({ undefined: reason });
    expect(lightCoefficient(lightKappa(table, scale))).toEqual({ undefined: reason });
  });

  it('ST1: a pair without a kappa is counted, not hidden', () => {
    const light = lightKappa(
      [
        [1, 1, null],
        [2, 2, null],
        [3, 2, 3],
      ],
      scale,
    );
    expect(light).toMatchObject({ undefinedPairs: 1 });
  });

  it("ST1: Fleiss' kappa: one category, gaps, one rating", () => {
    expect(
      fleissKappa([
        [3, 0],
        [3, 0],
      ]),
    ).toEqual({ undefined: 'chance agreement is certain' });
    expect(
      fleissKappa([
        [3, 0],
        [1, 1],
      ]),
    ).toEqual({ undefined: 'missing cells' });
    expect(
      fleissKappa([
        [1, 0],
        [0, 1],
      ]),
    ).toEqual({ undefined: 'one rater' });
    expect(fleissKappa([])).toEqual({ undefined: 'no scores' });
  });

  it('ST1: percent agreement: no scores, one rater, no unit with two', () => {
    expect(percentAgreement([])).toEqual({ undefined: 'no scores' });
    expect(percentAgreement([[1], [2]])).toEqual({ undefined: 'one rater' });
    expect(
      percentAgreement([
        [1, null],
        [null, 1],
      ]),
    ).toEqual({ undefined: 'fewer than two scores in every unit' });
  });
});

describe("Light's kappa by resampling", () => {
  const { data } = readReferenceCase('kappa-light-expsy');
  const table = data['values'] as ScoreTable;
  const scale = { categories: [1, 2, 3, 4], weights: agreementWeights('quadratic', 4) };

  it('kappa-light-expsy: one draw of each unit is the coefficient, and two of each is that of the doubled table', () => {
    const statistic = resampledLightKappa(table, scale);
    const plain = lightKappa(table, scale);
    const doubled = lightKappa([...table, ...table], scale);
    if (isUndefined(statistic) || isUndefined(plain) || isUndefined(doubled)) throw new Error('undefined');
    expect(statistic.evaluate(new Float64Array(statistic.units).fill(1))).toBeCloseTo(plain.value, 12);
    expect(statistic.evaluate(new Float64Array(statistic.units).fill(2))).toBeCloseTo(doubled.value, 12);
  });

  it('ST4: its interval holds the value and lies inside the possible range', () => {
    const result = coefficientInterval(resampledLightKappa(table, scale), table);
    if (isUndefined(result)) throw new Error(result.undefined);
    expect(result.low).toBeLessThan(result.value);
    expect(result.high).toBeGreaterThan(result.value);
    expect(result.high).toBeLessThanOrEqual(1);
  });

  it('ST1: no kappa, no resampling', () => {
    expect(resampledLightKappa([[1], [2]], scale)).toEqual({ undefined: 'one rater' });
  });
});
