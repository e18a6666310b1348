import type { ChoiceFit } from './comparisonModel';

/** One item's ability on the log odds scale, with its standard error under the constraint that its list has. */
export type Ability = { readonly item: string; readonly ability: number; readonly se: number };

/**
 * The abilities λ_i of a paired-comparison model, told under two constraints. Only differences of λ are determined
 * by comparisons, so a list needs one: that they sum to zero, or that the first is zero.
 */
export type ComparisonAbilities = {
  /** Summing to zero, with the standard errors of that constraint. */
  readonly centred: readonly Ability[];
  /** Against the first item, whose ability and error are 0. */
  readonly againstFirst: readonly Ability[];
  /** Share each item's worth e^ability has of the sum of all. */
  readonly worth: readonly number[];
  readonly differenceSe: readonly (readonly number[])[];
  /** Covariance of the parameters as fitted: items but the first, then what else the model has. */
  readonly covariance: readonly (readonly number[])[];
};

/**
 * Abilities, standard errors and worths from a fit in which parameter i is the ability of item i + 1 against item 0.
 *
 * Both constraints are linear maps of one fit. With V its covariance bordered by zeros for item 0:
 *   against the first   λ_i,            se² = V_ii
 *   centred             λ_i − mean λ,   se² = V_ii − 2 · mean_j V_ij + mean_jk V_jk
 *   difference          λ_i − λ_j,      se² = V_ii + V_jj − 2 V_ij, the same under both
 *   worth               e^λ_i / Σ e^λ
 *
 * In: item names in the order of the fit; parameters past the items (place, ties) are left to `covariance`.
 * Source: Firth & de Menezes 2004, Quasi-variances; Turner & Firth 2012.
 *
 * @example One item log 3 above the other, with variance 4/3: each is half that from their mean.
 * const fit = { parameters: Float64Array.of(Math.log(3)), covariance: Float64Array.of(4 / 3), logLikelihood: 0 }
 * const { centred, worth, differenceSe } = comparisonAbilities(['a', 'b'], fit)
 * centred[1] // { "item": "b", "ability": 0.5493, "se": 0.5774 }
 * worth // [0.25, 0.75]
 * differenceSe[0] // [0, 1.1547]
 */
export function comparisonAbilities(items: readonly string[], fit: ChoiceFit): ComparisonAbilities {
  const n = items.length;
  const size = fit.parameters.length;
  const ability = (i: number): number => (i === 0 ? 0 : (fit.parameters[i - 1] ?? 0));
  const covariance = (i: number, j: number): number =>
    i === 0 || j === 0 ? 0 : (fit.covariance[(i - 1) * size + j - 1] ?? 0);
  const all = [...items.keys()];
  const mean = all.reduce((sum, i) => sum + ability(i), 0) / n;
  const rowMeans = all.map((i) => all.reduce((sum, j) => sum + covariance(i, j), 0) / n);
  const grand = rowMeans.reduce((sum, value) => sum + value, 0) / n;
  const root = (value: number): number => Math.sqrt(Math.max(0, value));
  const most = Math.max(...all.map(ability));
  const weights = all.map((i) => Math.exp(ability(i) - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    centred: items.map((item, i) => ({
      item,
      ability: ability(i) - mean,
      se: root(covariance(i, i) - 2 * (rowMeans[i] ?? 0) + grand),
    })),
    againstFirst: items.map((item, i) => ({ item, ability: ability(i), se: root(covariance(i, i)) })),
    worth: weights.map((weight) => weight / total),
    differenceSe: all.map((i) => all.map((j) => root(covariance(i, i) + covariance(j, j) - 2 * covariance(i, j)))),
    covariance: Array.from({ length: size }, (_, k) => [...fit.covariance.slice(k * size, (k + 1) * size)]),
  };
}
