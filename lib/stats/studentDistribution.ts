import { betaLogitQuantile } from './betaDistribution';
import { regularisedBeta } from './regularisedBeta';

/**
 * Lower tail of Student's t: the distribution of a mean over its estimated standard error, with df degrees of
 * freedom.
 *
 * F(t) = ½ I_x(df/2, ½) for t ≤ 0, with x = df / (df + t²); by symmetry 1 − F(−t) above.
 * In: df > 0, whole or not. Out: 0 … 1. With one degree of freedom, ½ + arctan(t) / π.
 *
 * Source: Student 1908, The probable error of a mean; Abramowitz & Stegun 1964, 26.7.1.
 *
 * @example
 * studentCdf(-2.570582, 5) // 0.0250
 * studentCdf(1, 1) // 0.75
 */
export function studentCdf(x: number, df: number): number {
  if (x === Infinity || x === -Infinity) return x > 0 ? 1 : 0;
  const total = df + x * x;
  const tails = regularisedBeta({ shape1: df / 2, shape2: 0.5, x: df / total, complement: (x * x) / total });
  return x < 0 ? tails.lower / 2 : 0.5 + tails.upper / 2;
}

/**
 * Upper tail of Student's t, F(−t): small chances keep their digits.
 *
 * @example
 * studentUpperTail(1, 1) // 0.25
 * studentUpperTail(2.200985, 11) // 0.0250
 */
export function studentUpperTail(x: number, df: number): number {
  return studentCdf(-x, df);
}

/**
 * The t below which Student's variable falls with probability p: the inverse of `studentCdf`.
 *
 * In: p from 0 to 1, df > 0. Out: −∞ at p ≤ 0, 0 at ½, ∞ at p ≥ 1.
 * Source: Abramowitz & Stegun 1964, table 26.10.
 *
 * @example
 * studentQuantile(0.975, 11) // 2.201
 * studentQuantile(0.975, 1) // 12.706
 * studentQuantile(0.5, 7) // 0
 */
export function studentQuantile(p: number, df: number): number {
  if (p <= 0) return -Infinity;
  if (p >= 1) return Infinity;
  if (p === 0.5) return 0;
  const tail = Math.min(p, 1 - p);
  const u = betaLogitQuantile({ p: 2 * tail, q: 1 - 2 * tail }, { shape1: df / 2, shape2: 0.5 });
  return Math.sqrt(df * Math.exp(-u)) * (p < 0.5 ? -1 : 1);
}
