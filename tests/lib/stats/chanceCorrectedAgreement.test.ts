import { describe, expect, it } from 'vitest';
import { agreementWeights, type WeightKind } from '#lib/stats/agreementWeights';
import { chanceCorrectedAgreement, type ChanceModel } from '#lib/stats/chanceCorrectedAgreement';
import { isUndefined } from '#lib/stats/coefficient';
import { percentAgreement } from '#lib/stats/percentAgreement';
import type { ScoreTable } from '#lib/stats/scoreTable';
import { expectWithin, readReferenceCase, titled } from './referenceCase';

const ids = ['gwet-ac-4x12', 'gwet-ac-expsy', 'gwet-ac-paradox', 'gwet-ac-wine'];
const models: Record<string, ChanceModel> = {
  gwet_ac1: 'gwet',
  gwet_ac2: 'gwet',
  brennan_prediger: 'brennan-prediger',
  fleiss_kappa_generalized: 'fleiss',
};

describe.each(ids)('%s', (id) => {
  const reference = readReferenceCase(id);
  const table = reference.data['values'] as ScoreTable;
  it.each(titled(id, reference.expected))('%s', (name, entry) => {
    const categories = entry.options['categories'] as number[];
    const weights = agreementWeights(entry.options['weights'] as WeightKind, categories.length);
    const model = models[entry.statistic];
    if (!model) throw new Error(`no model for ${name}`);
    const got = chanceCorrectedAgreement(table, { categories, weights }, model);
    if (isUndefined(got) || typeof entry.value !== 'number') throw new Error(`${name} undefined`);
    expectWithin(got.value, entry.value, { tolerance: entry.tolerance, what: name });
    if (model !== 'gwet') return;
    const limits = entry['ci'] as { lower: number; upper: number };
    const pairs: [string, number | null, number][] = [
      ['se', got.se, entry['se'] as number],
      ['low', got.low, limits.lower],
      ['high', got.high, limits.upper],
      ['percent', got.percentAgreement, entry['percent_agreement'] as number],
      ['chance', got.chanceAgreement, entry['chance_agreement'] as number],
      ['units', got.units, entry['units'] as number],
      ['units with two', got.unitsWithTwo, entry['units_with_two'] as number],
    ];
    for (const [what, ours, stored] of pairs)
      expectWithin(ours ?? NaN, stored, { tolerance: entry.tolerance, what: `${name} ${what}` });
    const percent = percentAgreement(table);
    if (entry.options['weights'] === 'identity')
      expect(isUndefined(percent) ? NaN : percent.value).toBeCloseTo(entry['percent_agreement'] as number, 12);
  });
});

describe('undefined chance-corrected agreement', () => {
  const scale = { categories: [1, 2], weights: agreementWeights('identity', 2) };
  it.each([
    ['no scores', []],
    ['one rater', [[1], [2]]],
    ['off the scale', [[1, 3]]],
    [
      'fewer than two scores in every unit',
      [
        [1, null],
        [null, 2],
      ],
    ],
  ] as [string, ScoreTable][])('ST1: %s', (reason, table) => {
    for (const model of ['gwet', 'brennan-prediger', 'fleiss'] as const)
      expect(chanceCorrectedAgreement(table, scale, model)).toEqual({ undefined: reason });
  });

  it('ST1: one category used: the generalised Fleiss form is 0/0, AC1 is 1; one unit has no standard error', () => {
    const table = [
      [1, 1],
      [1, 1],
    ];
    expect(chanceCorrectedAgreement(table, scale, 'fleiss')).toEqual({ undefined: 'chance agreement is certain' });
    expect(chanceCorrectedAgreement(table, scale, 'gwet')).toMatchObject({ value: 1 });
    expect(chanceCorrectedAgreement([[1, 2]], scale, 'gwet')).toMatchObject({ se: null, low: null, high: null });
    expect(chanceCorrectedAgreement(table, { categories: [1], weights: [[1]] }, 'gwet')).toEqual({
      undefined: 'fewer than two categories',
    });
  });
});
