import { betaLogitQuantile } from './betaDistribution';
import { regularisedBeta } from './regularisedBeta';

/** Lower tail of Student's t with df > 0: I of df / (df + t²), halved. Worked example: studentCdf(-2.570581835636314, 5) = 0.025. */
export function studentCdf(x: number, df: number): number {
  if (x === Infinity || x === -Infinity) return x > 0 ? 1 : 0;
  const total = df + x * x;
  const tails = regularisedBeta({ shape1: df / 2, shape2: 0.5, x: df / total, complement: (x * x) / total });
  return x < 0 ? tails.lower / 2 : 0.5 + tails.upper / 2;
}

export function studentUpperTail(x: number, df: number): number {
  return studentCdf(-x, df);
}

/** The t with lower-tail probability p. Worked example: studentQuantile(0.975, 11) = 2.200985160091639. */
export function studentQuantile(p: number, df: number): number {
  if (p <= 0) return -Infinity;
  if (p >= 1) return Infinity;
  if (p === 0.5) return 0;
  const tail = Math.min(p, 1 - p);
  const u = betaLogitQuantile({ p: 2 * tail, q: 1 - 2 * tail }, { shape1: df / 2, shape2: 0.5 });
  return Math.sqrt(df * Math.exp(-u)) * (p < 0.5 ? -1 : 1);
}
