import type { AgreementWeights } from './agreementWeights';
import { isUndefined, type CoefficientResult, type Undefined } from './coefficient';
import { raterPairs } from './raterPairs';
import { isComplete, raterCount, type ScoreTable } from './scoreTable';
import { pairCounts, weightedKappa, type KappaDetail } from './weightedKappa';

/** Light's κ with what it is the mean of: each pair of raters, by column, and its own κ or why it has none. */
export type LightKappa = {
  readonly value: number;
  readonly pairs: readonly PairKappa[];
  /** Pairs without a κ (no common unit, or one and the same category throughout): left out of the mean. */
  readonly undefinedPairs: number;
};
type PairKappa = { readonly raters: readonly [number, number]; readonly kappa: KappaDetail | Undefined };
/** The scale's categories in order, used or not, and how much each two of them agree (`agreementWeights`). */
export type KappaScale = { readonly categories: readonly number[]; readonly weights: AgreementWeights };

/**
 * Light's κ: chance-corrected agreement of several raters as the mean over pairs of raters.
 *
 * κ_Light = the mean of κ_ab over the pairs a < b that have one, each over the units both scored (`weightedKappa`).
 *
 * In: units × raters, gaps allowed; every score one of the categories. Out: at most 1; 0 is chance.
 * Undefined: no scores, one rater, fewer than two categories, a score off the scale, or no pair with a κ.
 *
 * Source: Light 1971, Measures of response agreement for qualitative data; Conger 1980.
 *
 * @example With two raters it is their κ: observed 3/4, expected 1/2.
 * const scale = { categories: [1, 2], weights: agreementWeights('identity', 2) }
 * lightKappa([[1, 1], [1, 1], [1, 2], [2, 2]], scale).value // 0.5
 * lightKappa([[1, 1, 1], [1, 1, 1], [1, 2, 1], [2, 2, 1]], scale).pairs.map(({ kappa }) => kappa.value) // [0.5, 0, 0]
 */
export function lightKappa(table: ScoreTable, scale: KappaScale): LightKappa | Undefined {
  const raters = raterCount(table);
  if (raters === 0) return { undefined: 'no scores' };
  if (raters === 1) return { undefined: 'one rater' };
  if (scale.categories.length < 2) return { undefined: 'fewer than two categories' };
  if (table.flat().some((score) => score !== null && !scale.categories.includes(score)))
    return { undefined: 'off the scale' };
  const pairs = raterPairs(table).map((pair): PairKappa => {
    const counts = pairCounts(pair, scale.categories);
    return {
      raters: pair.raters,
      kappa: counts === null ? { undefined: 'off the scale' } : weightedKappa(counts, scale.weights),
    };
  });
  const values = pairs.flatMap(({ kappa }) => (isUndefined(kappa) ? [] : [kappa.value]));
  if (values.length === 0) return { undefined: 'no pair of raters with a defined value' };
  return {
    value: values.reduce((sum, value) => sum + value, 0) / values.length,
    pairs,
    undefinedPairs: pairs.length - values.length,
  };
}

/**
 * Light's κ as a plain coefficient: with two raters it has the interval of their κ, with more it has no limits.
 *
 * @example
 * const scale = { categories: [1, 2], weights: agreementWeights('identity', 2) }
 * lightCoefficient(lightKappa([[1, 1, 1], [1, 1, 2], [2, 2, 2]], scale)) // { "value": 0.6000, "low": null, "high": null }
 * lightCoefficient({ undefined: 'one rater' }) // { "undefined": "one rater" }
 */
export function lightCoefficient(light: LightKappa | Undefined): CoefficientResult {
  if (isUndefined(light)) return light;
  const only = light.pairs.length === 1 ? light.pairs[0]?.kappa : undefined;
  return only !== undefined && !isUndefined(only)
    ? { value: only.value, low: only.low, high: only.high }
    : { value: light.value, low: null, high: null };
}

/**
 * The units every rater scored (listwise deletion).
 *
 * @example
 * listwise([[1, 2], [null, 3], [4, 5]]) // [[1, 2], [4, 5]]
 */
export function listwise(table: ScoreTable): ScoreTable {
  return table.filter((row) => isComplete([row]));
}
