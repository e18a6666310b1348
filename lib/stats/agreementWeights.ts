/** How much two categories agree, 1 = fully: row-major over the scale's categories in order. */
export type AgreementWeights = readonly (readonly number[])[];
export type WeightKind = 'identity' | 'linear' | 'quadratic' | 'ordinal';

/**
 * Weights over q ordered, equally spaced categories; the whole scale counts, used or not. |i - j| steps apart:
 * identity 0; linear 1 - d / (q - 1); quadratic 1 - d² / (q - 1)²; ordinal 1 - C(d + 1, 2) / C(q, 2).
 * Source: Cicchetti & Allison 1971, Fleiss & Cohen 1973, Gwet 2014. Worked example: linear over three categories, one apart: 0.5.
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
  return Array.from({ length: categories }, (_, i) => Array.from({ length: categories }, (_, j) => weight(Math.abs(i - j))));
}
