import type { PurposeQuestion } from './panel';

/** Share of each criterion in a purpose, summing to 1, in the order of `criteria`; all zero when nothing has weight. A weight that is not above zero counts as none. */
export function purposeWeights(criteria: readonly { readonly key: string }[], purpose: PurposeQuestion): Float64Array {
  const weights = Float64Array.from(criteria, ({ key }) => {
    const weight = Object.hasOwn(purpose.weights, key) ? (purpose.weights[key] ?? 0) : 0;
    return weight > 0 && Number.isFinite(weight) ? weight : 0;
  });
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return total > 0 ? weights.map((weight) => weight / total) : weights;
}

/** Keys of the criteria that carry weight in at least one purpose. */
export function weightedCriteria(purposes: readonly PurposeQuestion[]): ReadonlySet<string> {
  return new Set(purposes.flatMap(({ weights }) => Object.keys(weights).filter((key) => (weights[key] ?? 0) > 0)));
}
