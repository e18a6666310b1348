import { betaLogitQuantile } from './betaDistribution';
import { regularisedBeta, type BetaArguments } from './regularisedBeta';

/** Degrees of freedom of the numerator and of the denominator; both > 0, whole or not. */
export type FDegrees = { readonly df1: number; readonly df2: number };

/**
 * Lower tail of the F distribution: the ratio of two independent mean squares that estimate the same variance.
 *
 * F(x) = I_z(df1/2, df2/2), z = df1 x / (df1 x + df2). Out: 0 … 1; 0 for x ≤ 0.
 * Source: Snedecor 1934; Abramowitz & Stegun 1964, 26.6.2.
 *
 * @example With 2 and 2 degrees of freedom it is x / (1 + x).
 * fCdf(1000, { df1: 2, df2: 2 }) // 0.9990009990
 * fCdf(1, { df1: 7, df2: 7 }) // 0.5
 */
export function fCdf(x: number, degrees: FDegrees): number {
  return regularisedBeta(asBeta(x, degrees)).lower;
}

/**
 * Upper tail of the F distribution, the p value of an observed ratio x; small chances keep their digits.
 *
 * @example The 5% point of 5 and 10 degrees of freedom is 3.33.
 * fUpperTail(3.3258, { df1: 5, df2: 10 }) // 0.0500
 * fUpperTail(0, { df1: 5, df2: 10 }) // 1
 */
export function fUpperTail(x: number, degrees: FDegrees): number {
  return regularisedBeta(asBeta(x, degrees)).upper;
}

/**
 * The x below which an F variable falls with probability p: the inverse of `fCdf`.
 *
 * In: p from 0 to 1. Out: 0 at p ≤ 0, ∞ at p ≥ 1. It is (df2/df1) · z / (1 − z) of the beta quantile z, taken on the
 * logit scale so that both ends keep their digits. Source: Abramowitz & Stegun 1964, table 26.9.
 *
 * @example
 * fQuantile(0.975, { df1: 5, df2: 15 }) // 3.5764
 * fQuantile(0.95, { df1: 5, df2: 10 }) // 3.3258
 */
export function fQuantile(p: number, { df1, df2 }: FDegrees): number {
  if (p <= 0) return 0;
  if (p >= 1) return Infinity;
  return (df2 / df1) * Math.exp(betaLogitQuantile({ p, q: 1 - p }, { shape1: df1 / 2, shape2: df2 / 2 }));
}

function asBeta(x: number, { df1, df2 }: FDegrees): BetaArguments {
  const shapes = { shape1: df1 / 2, shape2: df2 / 2 };
  if (!(x > 0)) return { ...shapes, x: 0, complement: 1 };
  if (x === Infinity) return { ...shapes, x: 1, complement: 0 };
  const total = df1 * x + df2;
  return { ...shapes, x: (df1 * x) / total, complement: df2 / total };
}
