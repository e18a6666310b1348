import { logGamma } from './logGamma';

/**
 * Poisson and binomial terms for real arguments without the cancellation of large log-gammas:
 * C. Loader, Fast and Accurate Computation of Binomial Probabilities, 2000 (the saddle-point expansion).
 */

/**
 * The Poisson term for real arguments, m^x e^(−m) / Γ(x + 1), m the mean: the factor in front of the incomplete
 * gamma function.
 *
 * For whole x it is the chance of exactly x events. Written as e^(−δ(x) − D(x, m)) / √(2πx), with δ the error of
 * Stirling's formula for log x! and D(x, m) = x log(x/m) + m − x: no two large numbers are subtracted, as they are
 * in x log m − m − log Γ(x + 1).
 *
 * In: x ≥ 0, mean > 0. Out: 0 … 1, to nearly all digits.
 * Source: Loader 2000, Fast and accurate computation of binomial probabilities (the saddle-point expansion).
 *
 * @example 3² e⁻³ / 2 = 4.5 e⁻³.
 * poissonTerm(2, 3) // 0.2240418077
 * poissonTerm(0, 3) // 0.0497870684
 * poissonTerm(1e6, 1e6) // 3.9894e-4
 */
export function poissonTerm(x: number, mean: number): number {
  if (x === 0) return Math.exp(-mean);
  return Math.exp(-stirlingError(x) - deviance(x, mean)) / Math.sqrt(2 * Math.PI * x);
}

/** Arguments of a binomial term: how many successes and failures, whole or not, and the chance of each. */
export type BinomialArguments = {
  readonly successes: number;
  readonly failures: number;
  readonly p: number;
  /** 1 - p, given apart so that neither loses digits. */
  readonly q: number;
};

/**
 * The binomial term for real arguments, Γ(a + b + 1) / (Γ(a + 1) Γ(b + 1)) · p^a q^b: the factor of the incomplete
 * beta function.
 *
 * For whole a and b the chance of a successes in a + b trials. With n = a + b and δ, D as in `poissonTerm`:
 * e^(δ(n) − δ(a) − δ(b) − D(a, np) − D(b, nq)) · √(n / (2πab)).
 *
 * In: a, b > 0 and p + q = 1, each given so that neither loses digits. Out: 0 … 1. Source: Loader 2000.
 *
 * @example Two of four with chance ½: 6/16.
 * binomialTerm({ successes: 2, failures: 2, p: 0.5, q: 0.5 }) // 0.3750000000
 * binomialTerm({ successes: 1, failures: 3, p: 0.2, q: 0.8 }) // 0.4096000000
 */
export function binomialTerm({ successes: a, failures: b, p, q }: BinomialArguments): number {
  const n = a + b;
  const exponent = stirlingError(n) - stirlingError(a) - stirlingError(b) - deviance(a, n * p) - deviance(b, n * q);
  return Math.exp(exponent) * Math.sqrt(n / (2 * Math.PI * a * b));
}

/** log Γ(z + 1) minus Stirling's formula; series (Abramowitz & Stegun 6.1.41) where it is exact to double precision. */
function stirlingError(z: number): number {
  if (z < 15) return logGamma(z + 1) - (z + 0.5) * Math.log(z) + z - 0.9189385332046727;
  const s = 1 / (z * z);
  return (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * (1 / 1680 - s / 1188)))) / z;
}

/** x log(x/m) + m - x, by a series where x is close to m. */
function deviance(x: number, m: number): number {
  if (Math.abs(x - m) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x;
  const v = (x - m) / (x + m);
  let sum = (x - m) * v;
  let term = 2 * x * v;
  for (let k = 1; k < 1000; k += 1) {
    term *= v * v;
    const next = sum + term / (2 * k + 1);
    if (next === sum) break;
    sum = next;
  }
  return sum;
}
