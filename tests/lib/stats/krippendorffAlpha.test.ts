import { describe, expect, it } from 'vitest';
import { isUndefined } from '#lib/stats/coefficient';
import { alphaDetail, coincidenceMatrix, krippendorffAlpha, type AlphaMetric } from '#lib/stats/krippendorffAlpha';
import type { ScoreTable } from '#lib/stats/scoreTable';
import { expectWithin, readReferenceCase, titled } from './referenceCase';

const ids = [
  'alpha-edge-constant',
  'alpha-expsy',
  'alpha-krippendorff-4x12',
  'alpha-negative',
  'alpha-sim-10x5',
  'alpha-wine-rating-missing',
  'alpha-wine-rating',
  'alpha-wine-response',
];

describe.each(ids)('%s', (id) => {
  const reference = readReferenceCase(id);
  const table = reference.data['values'] as ScoreTable;
  it.each(titled(id, reference.expected))('%s', (name, entry) => {
    if (entry.statistic === 'coincidence_matrix') {
      const stored = entry.values as number[][];
      const got = coincidenceMatrix(table);
      expect(got.length).toBe(stored.length);
      stored.forEach((row, c) =>
        row.forEach((value, k) =>
          expectWithin(got[c]?.[k] ?? NaN, value, { tolerance: entry.tolerance, what: `${name} ${c} ${k}` }),
        ),
      );
      return;
    }
    const metric = entry.options['metric'] as AlphaMetric;
    const detail = alphaDetail(table, metric);
    if (entry.undefined === true) {
      expect(detail).toEqual({ undefined: 'no variation' });
      return;
    }
    if (isUndefined(detail) || typeof entry.value !== 'number') throw new Error(`${name} undefined`);
    const pairs: [string, number, unknown][] = [
      ['value', detail.value, entry.value],
      ['observed', detail.observedDisagreement, entry['observed_disagreement']],
      ['expected', detail.expectedDisagreement, entry['expected_disagreement']],
      ['pairable', detail.pairableValues, entry['pairable_values']],
      ['units', detail.unitsUsed, entry['units_used']],
    ];
    for (const [what, got, stored] of pairs)
      expectWithin(got, stored as number, { tolerance: entry.tolerance, what: `${name} ${what}` });
  });
});

describe('undefined alpha', () => {
  it.each([
    ['no scores', []],
    ['no scores', [[null, null]]],
    ['one rater', [[1], [2]]],
    [
      'one rater',
      [
        [1, null],
        [2, null],
      ],
    ],
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
        [3, 3],
        [3, 3],
      ],
    ],
  ] as [string, ScoreTable][])('ST1: %s', (reason, table) => {
    for (const metric of ['nominal', 'ordinal', 'interval', 'ratio'] as const)
      expect(krippendorffAlpha(table, metric)).toEqual({ undefined: reason });
  });

  it('ST1: a ratio needs scores of one sign', () => {
    expect(
      krippendorffAlpha(
        [
          [-1, 1],
          [2, 2],
        ],
        'ratio',
      ),
    ).toEqual({ undefined: 'ratio needs scores of one sign' });
  });
});
