/**
 * Natural logarithm of the gamma function, log Γ(x) with Γ(x) = ∫₀^∞ t^(x−1) e^(−t) dt, so that Γ(n) = (n − 1)!
 *
 * For x ≥ 1/2 by Lanczos's approximation with g = 607/128 and fifteen terms; below that by reflection,
 * Γ(x) Γ(1 − x) = π / sin πx. Relative error near 1e−15. Meant for x > 0.
 *
 * Source: Lanczos 1964, A precision approximation of the gamma function; coefficients as tabulated by P. Godfrey,
 * 2001.
 *
 * @example Γ(5) = 24 and Γ(1/2) = √π.
 * logGamma(5) - Math.log(24) // 0.0000000000
 * logGamma(0.5) // 0.5723649429
 * logGamma(100) // 359.1342053696
 */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  let sum = COEFFICIENTS[0];
  for (let k = 1; k < COEFFICIENTS.length; k += 1) sum += COEFFICIENTS[k] / (x - 1 + k);
  const base = x - 0.5 + 607 / 128;
  return HALF_LOG_TWO_PI + Math.log(sum) + (x - 0.5) * Math.log(base) - base;
}

const HALF_LOG_TWO_PI = 0.9189385332046727;
const COEFFICIENTS = [
  0.99999999999999709182, 57.156235665862923517, -59.597960355475491248, 14.136097974741747174, -0.49191381609762019978,
  0.33994649984811888699e-4, 0.46523628927048575665e-4, -0.98374475304879564677e-4, 0.15808870322491248884e-3,
  -0.21026444172410488319e-3, 0.2174396181152126432e-3, -0.16431810653676389022e-3, 0.84418223983852743293e-4,
  -0.2619083840158140867e-4, 0.36899182659531622704e-5,
];
