import type { Tails } from './regularisedGamma';
import { binomialTerm } from './saddlePoint';

/** Shapes a and b > 0, and where to look between 0 and 1. */
export type BetaArguments = {
  readonly shape1: number;
  readonly shape2: number;
  readonly x: number;
  /** 1 - x, given apart so that neither loses digits. */
  readonly complement: number;
};

/**
 * Regularised incomplete beta function I_x(a, b) = ∫₀^x t^(a−1) (1−t)^(b−1) dt / B(a, b) (lower) and 1 − I_x
 * (upper).
 *
 * I_x = x^a (1−x)^b / (a B(a, b)) · a continued fraction that converges fast for x ≤ (a + 1) / (a + b + 2);
 * above that I_x(a, b) = 1 − I_(1−x)(b, a). The fraction by Lentz's method.
 *
 * Out: 0 … 1; x ≤ 0 gives 0 and 1, a complement ≤ 0 gives 1 and 0.
 * Source: Abramowitz & Stegun 1964, 26.5.8.
 *
 * @example A binomial sum: 6 · 0.4² · 0.6² + 4 · 0.4³ · 0.6 + 0.4⁴.
 * regularisedBeta({ shape1: 2, shape2: 3, x: 0.4, complement: 0.6 }) // { "lower": 0.5248, "upper": 0.4752 }
 */
export function regularisedBeta(given: BetaArguments): Tails {
  if (!(given.x > 0)) return { lower: 0, upper: 1 };
  if (!(given.complement > 0)) return { lower: 1, upper: 0 };
  const { shape1: a, shape2: b, x, complement } = given;
  if (x <= (a + 1) / (a + b + 2)) {
    const lower = lowerTail(given);
    return { lower, upper: 1 - lower };
  }
  const upper = lowerTail({ shape1: b, shape2: a, x: complement, complement: x });
  return { lower: 1 - upper, upper };
}

/**
 * x^a (1−x)^b / B(a, b): the beta density times x (1 − x), which is the density in log(x / (1 − x)).
 *
 * @example Shapes 2 and 3 at 0.4: 12 · 0.4² · 0.6³.
 * betaKernel({ shape1: 2, shape2: 3, x: 0.4, complement: 0.6 }) // 0.4147200000
 */
export function betaKernel({ shape1: a, shape2: b, x, complement }: BetaArguments): number {
  return (binomialTerm({ successes: a, failures: b, p: x, q: complement }) * a * b) / (a + b);
}

function lowerTail(given: BetaArguments): number {
  const kernel = betaKernel(given);
  return kernel === 0 ? 0 : Math.min(1, (kernel / given.shape1) * continuedFraction(given));
}

function continuedFraction({ shape1: a, shape2: b, x }: BetaArguments): number {
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 100_000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return value;
}

const nonZero = (value: number): number => (Math.abs(value) < 1e-300 ? 1e-300 : value);
