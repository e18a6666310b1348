import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agreementWeights } from '#lib/stats/agreementWeights';
import { chanceCorrectedAgreement } from '#lib/stats/chanceCorrectedAgreement';
import { isUndefined, type CoefficientResult } from '#lib/stats/coefficient';
import type { ICC_FORMS } from '#lib/stats/intraclassCorrelation';
import { intraclassCorrelations } from '#lib/stats/intraclassCorrelation';
import { kendallW } from '#lib/stats/kendallW';
import { krippendorffAlpha } from '#lib/stats/krippendorffAlpha';
import { lightCoefficient, lightKappa } from '#lib/stats/lightKappa';
import { percentAgreement } from '#lib/stats/percentAgreement';
import { rankCorrelations } from '#lib/stats/rankCorrelations';
import { createSeededRandom } from '#lib/stats/seededRandom';
import type { ScoreTable } from '#lib/stats/scoreTable';

const categories = [1, 2, 3, 4, 5, 6, 7];
const quadratic = agreementWeights('quadratic', 7);
const identity = agreementWeights('identity', 7);

const table = (gaps: boolean): fc.Arbitrary<ScoreTable> =>
  fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 5 })).chain(([rows, columns]) => {
    const score = fc.integer({ min: 1, max: 7 });
    const cell = gaps ? fc.oneof({ weight: 4, arbitrary: score }, { weight: 1, arbitrary: fc.constant(null) }) : score;
    return fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows });
  });

/** Every coefficient of a table, as [name, value or reason]. */
function coefficients(scores: ScoreTable): [string, number | string][] {
  const all: [string, CoefficientResult | { readonly value: number }][] = [
    ...(['nominal', 'ordinal', 'interval', 'ratio'] as const).map((metric): [string, CoefficientResult] => [
      `alpha ${metric}`,
      krippendorffAlpha(scores, metric),
    ]),
    ...Object.entries(intraclassCorrelations(scores)).map(([form, result]): [string, CoefficientResult] => [
      `icc ${form}`,
      result,
    ]),
    ['W', kendallW(scores)],
    ['light', lightCoefficient(lightKappa(scores, { categories, weights: quadratic }))],
    ['percent', percentAgreement(scores)],
    ['ac1', chanceCorrectedAgreement(scores, { categories, weights: identity }, 'gwet')],
    ['ac2', chanceCorrectedAgreement(scores, { categories, weights: quadratic }, 'gwet')],
    ['fleiss', chanceCorrectedAgreement(scores, { categories, weights: identity }, 'fleiss')],
    ['bp', chanceCorrectedAgreement(scores, { categories, weights: identity }, 'brennan-prediger')],
    ['tau', rankCorrelations(scores, 'tau-b').mean],
  ];
  return all.map(([name, result]) => [name, 'undefined' in result ? String(result.undefined) : result.value]);
}

function expectAlike(got: [string, number | string][], wanted: [string, number | string][]): void {
  got.forEach(([name, value], at) => {
    const other = wanted[at]?.[1];
    if (typeof value === 'string' || typeof other === 'string') expect(value, name).toBe(other);
    else expect(Math.abs(value - (other ?? NaN)), name).toBeLessThan(1e-6 * Math.max(1, Math.abs(value)));
  });
}

describe('agreement coefficients on random tables', () => {
  it('ST1: any table gives finite numbers or reasons, never NaN, never a throw', () => {
    fc.assert(
      fc.property(table(true), (scores) => {
        for (const [name, value] of coefficients(scores)) {
          if (typeof value === 'number') expect(Number.isFinite(value), name).toBe(true);
          else expect(value.length, name).toBeGreaterThan(0);
        }
      }),
      { seed: 1, numRuns: 400 },
    );
  });

  it('ST2: shuffled rows and columns change nothing', () => {
    fc.assert(
      fc.property(table(true), fc.integer(), (scores, seed) => {
        const random = createSeededRandom(seed);
        const shuffled = <T>(values: readonly T[]): T[] =>
          values
            .map((value) => ({ value, key: random.uniform() }))
            .sort((a, b) => a.key - b.key)
            .map(({ value }) => value);
        const columns = shuffled([...(scores[0] ?? []).keys()]);
        const other = shuffled(scores).map((row) => columns.map((column) => row[column] ?? null));
        expectAlike(coefficients(other), coefficients(scores));
        for (const metric of ['nominal', 'ordinal', 'interval'] as const)
          expect(krippendorffAlpha(other, metric)).toEqual(krippendorffAlpha(scores, metric));
      }),
      { seed: 2, numRuns: 200 },
    );
  });

  it('ST1: raters who always agree score 1 in everything whenever units differ', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 2, maxLength: 9 }),
        fc.integer({ min: 2, max: 5 }),
        (units, raters) => {
          fc.pre(new Set(units).size > 1);
          for (const [name, value] of coefficients(units.map((score) => new Array<number>(raters).fill(score)))) {
            expect(typeof value === 'number' ? Math.abs(value - 1) : value, name).toBeLessThan(1e-9);
          }
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });
});

describe('agreement coefficients under change', () => {
  it('shifting one rater moves absolute agreement and not consistency, order or W', () => {
    fc.assert(
      fc.property(table(false), fc.integer({ min: 8, max: 20 }), (scores, shift) => {
        fc.pre(scores.length >= 3 && (scores[0]?.length ?? 0) >= 2);
        const moved = scores.map((row) =>
          row.map((score, column) => (column === 0 && score !== null ? score + shift : score)),
        );
        const [before, after] = [intraclassCorrelations(scores), intraclassCorrelations(moved)];
        expectAlike(
          [value('C,1', after['C,1']), value('C,k', after['C,k'])],
          [value('C,1', before['C,1']), value('C,k', before['C,k'])],
        );
        const [w, shiftedW] = [kendallW(scores), kendallW(moved)];
        expect(isUndefined(shiftedW) ? shiftedW.undefined : shiftedW.value).toBe(
          isUndefined(w) ? w.undefined : w.value,
        );
        const [agreed, shifted] = [before['A,1'], after['A,1']];
        // With more variance between units than error, a level difference can only lower absolute agreement.
        if (!isUndefined(agreed) && !isUndefined(shifted) && agreed.value > 0.01)
          expect(shifted.value).toBeLessThan(agreed.value);
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('ST1: one category, no variance between units, one rater, single scores: each has its reason', () => {
    const reasons = (scores: ScoreTable): Record<string, number | string> => Object.fromEntries(coefficients(scores));
    expect(
      reasons([
        [4, 4],
        [4, 4],
        [4, 4],
      ]),
    ).toMatchObject({
      'alpha ordinal': 'no variation',
      'icc 1': 'no variation',
      W: 'no variation',
      light: 'no pair of raters with a defined value',
      percent: 1,
      ac1: 1,
      ac2: 1,
      fleiss: 'chance agreement is certain',
      bp: 1,
      tau: 'no pair of raters with a defined value',
    });
    expect(
      reasons([
        [1, 2, 3],
        [2, 3, 1],
        [3, 1, 2],
      ]),
    ).toMatchObject({ 'icc k': 'no variation between units', 'icc C,k': 'no variation between units', W: 0 });
    for (const [name, value] of coefficients([[1], [2], [5]]))
      expect(value, name).toBe(name === 'tau' ? 'no pair of raters with a defined value' : 'one rater');
    for (const [name, value] of coefficients([
      [1, null],
      [null, 2],
    ])) {
      const other: Record<string, string> = {
        W: 'fewer than two units',
        light: 'no pair of raters with a defined value',
        tau: 'no pair of raters with a defined value',
      };
      expect(value, name).toBe(other[name] ?? 'fewer than two scores in every unit');
    }
  });
});

function value(form: (typeof ICC_FORMS)[number], result: CoefficientResult): [string, number | string] {
  return [form, isUndefined(result) ? result.undefined : result.value];
}
