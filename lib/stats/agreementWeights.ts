/**
 * How much two categories agree: a square table over the scale's categories in order, 1 on the diagonal, less
 * elsewhere.
 */
export type AgreementWeights = readonly (readonly number[])[];
/** Which steps apart count as part agreement, and how much: see `agreementWeights`. */
export type WeightKind = 'identity' | 'linear' | 'quadratic' | 'ordinal';

/**
 * Weights for agreement over q ordered, equally spaced categories. The whole scale counts, whether a category was
 * used or not.
 *
 * For categories d = |i − j| steps apart:
 *   identity   w = 1 for d = 0, else 0
 *   linear     w = 1 − d / (q − 1)
 *   quadratic  w = 1 − d² / (q − 1)²
 *   ordinal    w = 1 − C(d + 1, 2) / C(q, 2)
 *
 * In: q ≥ 2. Out: q rows of q weights, from 0 (or above) to 1.
 *
 * Source: Cohen 1968 (weighted agreement); Cicchetti & Allison 1971 (linear); Fleiss & Cohen 1973 (quadratic);
 * Gwet 2014, Handbook of Inter-Rater Reliability (ordinal).
 *
 * @example
 * agreementWeights('linear', 3)[0] // [1, 0.5, 0]
 * agreementWeights('quadratic', 3)[0] // [1, 0.75, 0]
 * agreementWeights('ordinal', 4)[0] // [1, 0.8333, 0.5, 0]
 * agreementWeights('identity', 2) // [[1, 0], [0, 1]]
 */
export function agreementWeights(kind: WeightKind, categories: number): AgreementWeights {
  const most = categories - 1;
  const weight = (d: number): number => {
    if (d === 0) return 1;
    if (kind === 'identity') return 0;
    if (kind === 'linear') return 1 - d / most;
    if (kind === 'quadratic') return 1 - (d / most) ** 2;
    return 1 - (d * (d + 1)) / (most * (most + 1));
  };
  return Array.from({ length: categories }, (_, i) =>
    Array.from({ length: categories }, (_, j) => weight(Math.abs(i - j))),
  );
}
