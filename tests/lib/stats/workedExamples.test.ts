import { describe, expect, it } from 'vitest';
import { additiveComponents } from '#lib/stats/additiveComponents';
import { agreementWeights } from '#lib/stats/agreementWeights';
import { adjustedLevels } from '#lib/stats/bootstrapInterval';
import { isUndefined, type Undefined } from '#lib/stats/coefficient';
import { decisionStudy } from '#lib/stats/decisionStudy';
import { eliminationOrder } from '#lib/stats/eliminationOrder';
import { fitMixedModel } from '#lib/stats/fitMixedModel';
import { kendallTau } from '#lib/stats/kendallTau';
import { kendallW } from '#lib/stats/kendallW';
import { krippendorffAlpha } from '#lib/stats/krippendorffAlpha';
import { lightKappa } from '#lib/stats/lightKappa';
import { logGamma } from '#lib/stats/logGamma';
import { midRanks } from '#lib/stats/midRanks';
import { intercept, labelledFactor } from '#lib/stats/mixedModel';
import { pearson } from '#lib/stats/pearson';
import { percentAgreement } from '#lib/stats/percentAgreement';
import { regularisedBeta } from '#lib/stats/regularisedBeta';
import { regularisedGamma } from '#lib/stats/regularisedGamma';
import { jackknifeSummary } from '#lib/stats/resampledStatistic';
import { poissonTerm } from '#lib/stats/saddlePoint';
import { canonicalTable } from '#lib/stats/scoreTable';
import { spearman } from '#lib/stats/spearman';

function valueOf(result: { readonly value: number } | Undefined): number {
  if (isUndefined(result)) throw new Error(result.undefined);
  return result.value;
}

/** The examples given beside the formulas, worked by hand from the published definitions. */
describe('worked examples', () => {
  it("ST3: Krippendorff's alpha: D_o 1/3, D_e 3/5", () => {
    expect(valueOf(krippendorffAlpha([[1, 1], [2, 2], [1, 2]], 'nominal'))).toBeCloseTo(4 / 9, 14);
  });

  it('ST3: percent agreement: (1/3 + 1) / 2', () => {
    expect(valueOf(percentAgreement([[1, 1, 2], [3, 3, 3]]))).toBeCloseTo(2 / 3, 14);
  });

  it('ST3: ranks and correlations', () => {
    expect(midRanks([5, 3, 5])).toEqual([2.5, 1, 2.5]);
    expect(pearson({ first: [1, 2, 3], second: [2, 4, 6] })).toBeCloseTo(1, 14);
    expect(spearman({ first: [1, 2, 3], second: [10, 30, 20] })).toBeCloseTo(0.5, 14);
    expect(kendallTau({ first: [1, 2, 3], second: [1, 3, 2] })).toBeCloseTo(1 / 3, 14);
    expect(valueOf(kendallW([[1, 5, 2], [2, 6, 4], [3, 9, 5]]))).toBe(1);
  });

  it("ST3: weights, and Light's kappa of two raters is their kappa", () => {
    expect(agreementWeights('linear', 3)[0]).toEqual([1, 0.5, 0]);
    expect(agreementWeights('quadratic', 3)[0]).toEqual([1, 0.75, 0]);
    expect(agreementWeights('ordinal', 4)[0]).toEqual([1, 1 - 1 / 6, 1 - 3 / 6, 0]);
    // Table [[2, 1], [0, 1]]: observed 3/4, expected (3·2 + 1·2)/16 = 1/2.
    const table = [[1, 1], [1, 1], [1, 2], [2, 2]];
    expect(valueOf(lightKappa(table, { categories: [1, 2], weights: agreementWeights('identity', 2) }))).toBeCloseTo(0.5, 14);
  });

  it('ST3: decision study: relative error 0.25, coefficient 2/3', () => {
    const study = decisionStudy({ target: 0.5, residual: 0.5 }, { raters: 2, criteria: 1 });
    expect(study.relativeError).toBe(0.25);
    expect(valueOf(study.relative)).toBeCloseTo(2 / 3, 14);
  });

  it('ST3: the jackknife of a mean has no bias and s / sqrt n', () => {
    const values = [1, 2, 4, 9];
    const leftOut = values.map((value) => (16 - value) / 3);
    const { bias, se } = jackknifeSummary(leftOut, 4);
    expect(bias).toBeCloseTo(0, 14);
    expect(se).toBeCloseTo(Math.sqrt(38 / 3 / 4), 14);
  });

  it('ST3: REML of a one-way layout is (between - within) / replicates', () => {
    // Groups (1, 3), (5, 7), (9, 11): mean square between 32, within 2; component 15.
    const factor = labelledFactor('group', ['a', 'a', 'b', 'b', 'c', 'c']);
    const fit = fitMixedModel({ response: [1, 3, 5, 7, 9, 11], fixed: [intercept(6)], factors: [factor] });
    if (isUndefined(fit)) throw new Error(fit.undefined);
    expect(fit.factors[0]?.variance).toBeCloseTo(15, 8);
    expect(fit.residual).toBeCloseTo(2, 8);
    expect(fit.fixed[0]?.estimate).toBeCloseTo(6, 10);
    // Var(mean) = (15 + 2 / 2) / 3.
    expect(fit.fixed[0]?.se).toBeCloseTo(Math.sqrt(16 / 3), 8);
  });

  it('ST1: REML says why there is no fit: nothing varies, no observation left over, a fixed effect twice', () => {
    const factors = [labelledFactor('group', ['a', 'a', 'b', 'b'])];
    expect(fitMixedModel({ response: [2, 2, 2, 2], fixed: [intercept(4)], factors })).toEqual({ undefined: 'no variation' });
    expect(fitMixedModel({ response: [1], fixed: [intercept(1)], factors: [] })).toEqual({ undefined: 'too few observations' });
    expect(fitMixedModel({ response: [1, 2, 3, 5], fixed: [intercept(4), intercept(4)], factors })).toEqual({ undefined: 'fixed effects not estimable' });
  });

  it('ST3: BCa levels are the percentile levels when draws are balanced; none when all draws are on one side', () => {
    const levels = adjustedLevels({ below: 0.5, acceleration: 0, level: 0.9 });
    expect(levels?.[0]).toBeCloseTo(0.05, 12);
    expect(levels?.[1]).toBeCloseTo(0.95, 12);
    expect(adjustedLevels({ below: 1, acceleration: 0, level: 0.9 })).toBeNull();
  });

  it('ST3: special functions', () => {
    expect(logGamma(5)).toBeCloseTo(Math.log(24), 14);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 14);
    expect(poissonTerm(2, 3)).toBeCloseTo(4.5 * Math.exp(-3), 15);
    expect(regularisedGamma(1, 2).upper).toBeCloseTo(Math.exp(-2), 15);
    expect(regularisedBeta({ shape1: 2, shape2: 3, x: 0.4, complement: 0.6 }).lower).toBeCloseTo(0.5248, 14);
  });

  it('exactly additive tables give the variances of their parts', () => {
    expect(additiveComponents([[1, 3], [2, 4], [4, null]])).toEqual({ unit: 7 / 3, rater: 2, residual: 0 });
    expect(additiveComponents([[1, 3], [2, 5]])).toBeNull();
    expect(additiveComponents([[1, null], [null, 2]])).toBeNull();
  });

  it('a star is eliminated from its leaves, without fill', () => {
    // Node 0 touches 1, 2 and 3, which do not touch each other.
    const star = Float64Array.from([3, 1, 1, 1, 1, 2, 0, 0, 1, 0, 2, 0, 1, 0, 0, 2]);
    const { order, patterns } = eliminationOrder(star, 4);
    expect([...order]).toEqual([1, 2, 0, 3]);
    expect(patterns.map((pattern) => pattern.length)).toEqual([1, 1, 1, 0]);
  });

  it('ST2: one canonical table for any order of rows and columns', () => {
    expect(canonicalTable([[3, null, 1], [2, 2, 2]])).toEqual(canonicalTable([[2, 2, 2], [1, 3, null]]));
  });
});
