import type { MixedModelFit } from './fitMixedModel';
import { inverseColumn } from './penalisedSystem';

/**
 * How sure the predicted levels of one factor are, at the estimated variances.
 * Source: Henderson 1975 (mixed model equations); Searle, Casella & McCulloch 1992, chapter 7.
 */
export type PredictionErrors = {
  /** √Var(predicted - true) of each level, the uncertainty of the fixed effects included. */
  readonly sd: readonly number[];
  /** Standard error of each pairwise difference of predicted levels, on the same basis: what tells two levels apart. */
  readonly differenceSe: readonly (readonly number[])[];
};

/** Worked example: on a complete table all levels have one `sd`, and `differenceSe` is below √2 times it where errors are shared. */
export function predictionErrors(fit: MixedModelFit, factor: string): PredictionErrors {
  const k = fit.factors.findIndex(({ name }) => name === factor);
  const { starts } = fit.system.design;
  const first = starts[k] ?? 0;
  const count = (starts[k + 1] ?? 0) - first;
  const covariance = Array.from({ length: count }, (_, i) => inverseColumn(fit.system, first + i).slice(first, first + count));
  const entry = (i: number, j: number): number => fit.residual * (covariance[i]?.[j] ?? 0);
  const levels = [...covariance.keys()];
  return {
    sd: levels.map((i) => Math.sqrt(Math.max(0, entry(i, i)))),
    differenceSe: levels.map((i) => levels.map((j) => (i === j ? 0 : Math.sqrt(Math.max(0, entry(i, i) + entry(j, j) - 2 * entry(i, j)))))),
  };
}
