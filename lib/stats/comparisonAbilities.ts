import type { ChoiceFit } from './comparisonModel';

export type Ability = { readonly item: string; readonly ability: number; readonly se: number };

/** Abilities of a paired-comparison model; parameter i is item i + 1, item 0 is the reference, further parameters follow. */
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

/** Constraints differ only by a linear map of the same fit: Firth & de Menezes 2004, Turner & Firth 2012. */
export function comparisonAbilities(items: readonly string[], fit: ChoiceFit): ComparisonAbilities {
  const n = items.length;
  const size = fit.parameters.length;
  const ability = (i: number): number => (i === 0 ? 0 : (fit.parameters[i - 1] ?? 0));
  const covariance = (i: number, j: number): number => (i === 0 || j === 0 ? 0 : (fit.covariance[(i - 1) * size + j - 1] ?? 0));
  const all = [...items.keys()];
  const mean = all.reduce((sum, i) => sum + ability(i), 0) / n;
  const rowMeans = all.map((i) => all.reduce((sum, j) => sum + covariance(i, j), 0) / n);
  const grand = rowMeans.reduce((sum, value) => sum + value, 0) / n;
  const root = (value: number): number => Math.sqrt(Math.max(0, value));
  const most = Math.max(...all.map(ability));
  const weights = all.map((i) => Math.exp(ability(i) - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    centred: items.map((item, i) => ({ item, ability: ability(i) - mean, se: root(covariance(i, i) - 2 * (rowMeans[i] ?? 0) + grand) })),
    againstFirst: items.map((item, i) => ({ item, ability: ability(i), se: root(covariance(i, i)) })),
    worth: weights.map((weight) => weight / total),
    differenceSe: all.map((i) => all.map((j) => root(covariance(i, i) + covariance(j, j) - 2 * covariance(i, j)))),
    covariance: Array.from({ length: size }, (_, k) => [...fit.covariance.slice(k * size, (k + 1) * size)]),
  };
}
