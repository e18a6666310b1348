import { regularisedGamma } from './regularisedGamma';
import { tailQuantile } from './tailQuantile';

/**
 * Lower tail of the standard normal, Φ(x) = ∫_−∞^x e^(−t²/2) dt / √(2π).
 *
 * For x < 0, Φ(x) = Q(½, x²/2) / 2 by the incomplete gamma function, so that far tails keep their digits; Φ(−x) =
 * 1 − Φ(x).
 * Out: 0 … 1. For mean μ and deviation σ give (x − μ) / σ.
 *
 * Source: Abramowitz & Stegun 1964, 26.2 and table 26.1.
 *
 * @example
 * normalCdf(1.96) // 0.9750
 * normalCdf(-1.959963984540054) // 0.0250000000
 * normalCdf(-10) // 7.6199e-24
 */
export function normalCdf(x: number): number {
  const { lower, upper } = regularisedGamma(0.5, (x * x) / 2);
  return x < 0 ? upper / 2 : 0.5 + lower / 2;
}

/**
 * Upper tail 1 − Φ(x) = Φ(−x), without the cancellation of the subtraction.
 *
 * @example
 * normalUpperTail(1.645) // 0.0500
 * normalUpperTail(10) // 7.6199e-24
 */
export function normalUpperTail(x: number): number {
  return normalCdf(-x);
}

/** φ(x). */
function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
}

/**
 * The x below which a standard normal variable falls with probability p: the inverse of `normalCdf`.
 *
 * In: p from 0 to 1. Out: −∞ at p ≤ 0, 0 at ½, ∞ at p ≥ 1. Newton's method from a rational start (`tailQuantile`).
 * Source: Abramowitz & Stegun 1964, 26.2.23 (the start).
 *
 * @example
 * normalQuantile(0.975) // 1.959963984540
 * normalQuantile(0.9) // 1.2816
 * normalQuantile(0) // -Infinity
 */
export function normalQuantile(p: number): number {
  if (p <= 0) return -Infinity;
  if (p >= 1) return Infinity;
  if (p === 0.5) return 0;
  const q = 1 - p;
  const tails = (u: number) => ({ lower: normalCdf(u), upper: normalUpperTail(u) });
  return tailQuantile({ p, q, tails, density: normalDensity, start: startingPoint(Math.min(p, q)) * (p < q ? 1 : -1) });
}

function startingPoint(tail: number): number {
  const t = Math.sqrt(-2 * Math.log(tail));
  const numerator = 2.515517 + t * (0.802853 + t * 0.010328);
  return numerator / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t;
}
