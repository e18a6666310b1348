import { poissonTerm } from './saddlePoint';

/**
 * The two tails of a distribution function, together 1; the smaller keeps its own digits instead of being 1 minus
 * the other.
 */
export type Tails = { readonly lower: number; readonly upper: number };

/**
 * Regularised incomplete gamma functions, P(a, x) = ∫₀^x t^(a−1) e^(−t) dt / Γ(a) (lower) and Q = 1 − P (upper).
 *
 * With the factor f = x^a e^(−x) / Γ(a + 1):
 *   x < a + 1   P = f · (1 + x/(a+1) + x²/((a+1)(a+2)) + …)
 *   else        Q = f · a · 1/(x+1−a − 1(1−a)/(x+3−a − …)), by Lentz's method
 *
 * In: a > 0; x ≤ 0 gives 0 and 1, ∞ gives 1 and 0. Out: 0 … 1.
 * Source: Abramowitz & Stegun 1964, 6.5.29 (series) and 6.5.31 (fraction).
 *
 * @example P(1, x) = 1 − e^(−x).
 * regularisedGamma(1, 2) // { "lower": 0.8646647168, "upper": 0.1353352832 }
 * regularisedGamma(0.5, 1.9207).lower // 0.9500
 */
export function regularisedGamma(a: number, x: number): Tails {
  if (!(x > 0)) return { lower: 0, upper: 1 };
  if (x === Infinity) return { lower: 1, upper: 0 };
  const factor = poissonTerm(a, x);
  if (x < a + 1) {
    const lower = Math.min(1, factor * series(a, x));
    return { lower, upper: 1 - lower };
  }
  const upper = factor === 0 ? 0 : Math.min(1, factor * a * continuedFraction(a, x));
  return { lower: 1 - upper, upper };
}

function series(a: number, x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; term > sum * 1e-17 && k < 100_000; k += 1) {
    term *= x / (a + k);
    sum += term;
  }
  return sum;
}

/** Lentz's method. */
function continuedFraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let value = d;
  for (let k = 1; k < 100_000; k += 1) {
    const numerator = k * (a - k);
    b += 2;
    d = 1 / nonZero(numerator * d + b);
    c = nonZero(b + numerator / c);
    const ratio = c * d;
    value *= ratio;
    if (Math.abs(ratio - 1) < 1e-16) break;
  }
  return value;
}

const nonZero = (value: number): number => (Math.abs(value) < 1e-300 ? 1e-300 : value);
