import { regularisedGamma } from './regularisedGamma';
import { poissonTerm } from './saddlePoint';
import { tailQuantile } from './tailQuantile';

/**
 * Lower tail of the χ² distribution: the chance that a sum of df squared standard normals is at most x.
 *
 * F(x) = P(df/2, x/2), the regularised incomplete gamma function. In: df > 0, whole or not. Out: 0 … 1; 0 for x ≤ 0.
 * Source: Abramowitz & Stegun 1964, 26.4.19.
 *
 * @example With two degrees of freedom it is 1 − e^(−x/2).
 * chiSquareCdf(5, 2) // 0.9179150014
 * chiSquareCdf(-1, 2) // 0
 */
export function chiSquareCdf(x: number, df: number): number {
  return regularisedGamma(df / 2, x / 2).lower;
}

/**
 * Upper tail Q(df/2, x/2) of the χ² distribution, worked out by itself so that small chances keep their digits.
 *
 * @example The usual limit at 5%, and one far out: e^(−50).
 * chiSquareUpperTail(3.841458820694124, 1) // 0.0500000000
 * chiSquareUpperTail(100, 2) // 1.9287e-22
 */
export function chiSquareUpperTail(x: number, df: number): number {
  return regularisedGamma(df / 2, x / 2).upper;
}

/**
 * The x below which a χ² variable falls with probability p: the inverse of `chiSquareCdf`.
 *
 * In: p from 0 to 1, df > 0. Out: 0 at p ≤ 0, ∞ at p ≥ 1. Solved in u = log(x/2) by `tailQuantile`.
 * Source: Abramowitz & Stegun 1964, table 26.8.
 *
 * @example
 * chiSquareQuantile(0.95, 1) // 3.841459
 * chiSquareQuantile(0.95, 10) // 18.307
 * chiSquareQuantile(1, 3) // Infinity
 */
export function chiSquareQuantile(p: number, df: number): number {
  if (p <= 0) return 0;
  if (p >= 1) return Infinity;
  const a = df / 2;
  // Solved for u = log(x / 2), where small quantiles keep their digits.
  const tails = (u: number) => regularisedGamma(a, Math.exp(u));
  const density = (u: number): number => a * poissonTerm(a, Math.exp(u));
  return 2 * Math.exp(tailQuantile({ p, q: 1 - p, tails, density, start: Math.log(a) }));
}
