import { logGamma } from './logGamma';

/**
 * Poisson and binomial terms for real arguments without the cancellation of large log-gammas:
 * C. Loader, Fast and Accurate Computation of Binomial Probabilities, 2000 (the saddle-point expansion).
 */

/** mean^x e^(-mean) / Γ(x + 1), for x ≥ 0 and mean > 0. Worked example: poissonTerm(2, 3) = 4.5 e⁻³ = 0.22404180765538775. */
export function poissonTerm(x: number, mean: number): number {
  if (x === 0) return Math.exp(-mean);
  return Math.exp(-stirlingError(x) - deviance(x, mean)) / Math.sqrt(2 * Math.PI * x);
}

export type BinomialArguments = {
  readonly successes: number;
  readonly failures: number;
  readonly p: number;
  /** 1 - p, given apart so that neither loses digits. */
  readonly q: number;
};

/** Γ(a+b+1) / (Γ(a+1) Γ(b+1)) p^a q^b with a successes and b failures, both > 0. */
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
