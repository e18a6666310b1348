import { regularisedGamma } from './regularisedGamma';
import { tailQuantile } from './tailQuantile';

/**
 * Lower tail Φ(x) of the standard normal, exact in both tails: Φ(-x) = Q(1/2, x²/2) / 2 (Abramowitz & Stegun 26.2.29 ff.).
 * Worked example: normalCdf(-1.959963984540054) = 0.025.
 */
export function normalCdf(x: number): number {
  const { lower, upper } = regularisedGamma(0.5, (x * x) / 2);
  return x < 0 ? upper / 2 : 0.5 + lower / 2;
}

/** 1 - Φ(x) without cancellation. */
export function normalUpperTail(x: number): number {
  return normalCdf(-x);
}

/** φ(x). */
function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
}

/** The x with Φ(x) = p; -∞ at 0 and ∞ at 1. Start: Abramowitz & Stegun 26.2.23. Worked example: normalQuantile(0.975) = 1.959963984540054. */
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
