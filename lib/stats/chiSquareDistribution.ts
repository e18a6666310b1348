import { regularisedGamma } from './regularisedGamma';
import { poissonTerm } from './saddlePoint';
import { tailQuantile } from './tailQuantile';

/** Lower tail of the chi-square distribution with df > 0: P(df/2, x/2). Worked example: chiSquareCdf(5, 2) = 0.9179150013761012. */
export function chiSquareCdf(x: number, df: number): number {
  return regularisedGamma(df / 2, x / 2).lower;
}

export function chiSquareUpperTail(x: number, df: number): number {
  return regularisedGamma(df / 2, x / 2).upper;
}

/** The x with lower-tail probability p. Worked example: chiSquareQuantile(0.95, 1) = 3.841458820694124. */
export function chiSquareQuantile(p: number, df: number): number {
  if (p <= 0) return 0;
  if (p >= 1) return Infinity;
  const a = df / 2;
  // Solved for u = log(x / 2), where small quantiles keep their digits.
  const tails = (u: number) => regularisedGamma(a, Math.exp(u));
  const density = (u: number): number => a * poissonTerm(a, Math.exp(u));
  return 2 * Math.exp(tailQuantile({ p, q: 1 - p, tails, density, start: Math.log(a) }));
}
