import type { MixedModelFit } from './fitMixedModel';
import { inverseColumn } from './penalisedSystem';

/** How sure the predicted levels of one factor are, at the estimated variances; all in units of the response. */
export type PredictionErrors = {
  /** √Var(predicted - true) of each level, the uncertainty of the fixed effects included. */
  readonly sd: readonly number[];
  /** Standard error of each pairwise difference of predicted levels, on the same basis: what tells two levels apart. */
  readonly differenceSe: readonly (readonly number[])[];
};

/**
 * Standard errors of the predicted levels of one random factor, and of their differences.
 *
 * With C the block of the inverse of Henderson's equations that belongs to the factor, Var(û − u) = σ² C:
 * sd_i = σ √C_ii and differenceSe_ij = σ √(C_ii + C_jj − 2 C_ij). The uncertainty of the fixed effects is in it,
 * that of the variances themselves is not. A factor estimated to have no variance has 0 throughout.
 *
 * In: a fit, and the name of one of its factors; a name it does not know gives empty lists.
 * Source: Henderson 1975; Searle, Casella & McCulloch 1992, Variance Components, chapter 7.
 *
 * @example Three groups of two, σ²_group = 15, σ² = 2: a difference has variance 2 · 15/16 about its prediction.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b', 'c', 'c'])
 * const fit = fitMixedModel({ response: [1, 3, 5, 7, 9, 11], fixed: [intercept(6)], factors: [factor] })
 * predictionErrors(fit, 'group').sd // [2.3717, 2.3717, 2.3717]
 * predictionErrors(fit, 'group').differenceSe[0] // [0, 1.3693, 1.3693]
 */
export function predictionErrors(fit: MixedModelFit, factor: string): PredictionErrors {
  const k = fit.factors.findIndex(({ name }) => name === factor);
  const { starts } = fit.system.design;
  const first = starts[k] ?? 0;
  const count = (starts[k + 1] ?? 0) - first;
  const covariance = Array.from({ length: count }, (_, i) =>
    inverseColumn(fit.system, first + i).slice(first, first + count),
  );
  const entry = (i: number, j: number): number => fit.residual * (covariance[i]?.[j] ?? 0);
  const levels = [...covariance.keys()];
  return {
    sd: levels.map((i) => Math.sqrt(Math.max(0, entry(i, i)))),
    differenceSe: levels.map((i) =>
      levels.map((j) => (i === j ? 0 : Math.sqrt(Math.max(0, entry(i, i) + entry(j, j) - 2 * entry(i, j))))),
    ),
  };
}
