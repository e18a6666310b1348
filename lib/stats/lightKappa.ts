import type { AgreementWeights } from './agreementWeights';
import { isUndefined, type CoefficientResult, type Undefined } from './coefficient';
import { raterPairs } from './raterPairs';
import { isComplete, raterCount, type ScoreTable } from './scoreTable';
import { pairCounts, weightedKappa, type KappaDetail } from './weightedKappa';

export type LightKappa = {
  readonly value: number;
  readonly pairs: readonly PairKappa[];
  /** Pairs without a κ (no common unit, or one and the same category throughout): left out of the mean. */
  readonly undefinedPairs: number;
};
type PairKappa = { readonly raters: readonly [number, number]; readonly kappa: KappaDetail | Undefined };
export type KappaScale = { readonly categories: readonly number[]; readonly weights: AgreementWeights };

/**
 * Light's κ: the mean of the (weighted) κ of every pair of raters, each over the units both scored.
 * Undefined with one rater, a score off the scale, or no pair with a κ. Source: Light 1971; Conger 1980.
 * Worked example: with two raters it is their κ.
 */
export function lightKappa(table: ScoreTable, scale: KappaScale): LightKappa | Undefined {
  const raters = raterCount(table);
  if (raters === 0) return { undefined: 'no scores' };
  if (raters === 1) return { undefined: 'one rater' };
  if (scale.categories.length < 2) return { undefined: 'fewer than two categories' };
  if (table.flat().some((score) => score !== null && !scale.categories.includes(score))) return { undefined: 'off the scale' };
  const pairs = raterPairs(table).map((pair): PairKappa => {
    const counts = pairCounts(pair, scale.categories);
    return { raters: pair.raters, kappa: counts === null ? { undefined: 'off the scale' } : weightedKappa(counts, scale.weights) };
  });
  const values = pairs.flatMap(({ kappa }) => (isUndefined(kappa) ? [] : [kappa.value]));
  if (values.length === 0) return { undefined: 'no pair of raters with a defined value' };
  return { value: values.reduce((sum, value) => sum + value, 0) / values.length, pairs, undefinedPairs: pairs.length - values.length };
}

/** As a plain coefficient: for two raters with the interval of their κ, for more without. */
export function lightCoefficient(light: LightKappa | Undefined): CoefficientResult {
  if (isUndefined(light)) return light;
  const only = light.pairs.length === 1 ? light.pairs[0]?.kappa : undefined;
  return only !== undefined && !isUndefined(only) ? { value: only.value, low: only.low, high: only.high } : { value: light.value, low: null, high: null };
}

/** Units every rater scored. */
export function listwise(table: ScoreTable): ScoreTable {
  return table.filter((row) => isComplete([row]));
}
