/**
 * A statistic θ as a function of how often each unit counts: 1 each is the sample, other counts a resample, one 0 a
 * leave-one-out. `units` is how many counts it takes.
 */
export type ResampledStatistic = {
  readonly units: number;
  /** Null where it is undefined. */
  evaluate(counts: ArrayLike<number>): number | null;
};

/**
 * The statistic with each unit left out in turn: θ₍₁₎ … θ₍ₙ₎, null where leaving that unit out leaves no value.
 *
 * Source: Quenouille 1956; Tukey 1958.
 *
 * @example The mean of 1, 2 and 6.
 * const mean = { units: 3, evaluate: (n) => (n[0] + 2 * n[1] + 6 * n[2]) / (n[0] + n[1] + n[2]) }
 * jackknifeValues(mean) // [4, 3.5, 1.5]
 */
export function jackknifeValues(statistic: ResampledStatistic): (number | null)[] {
  const counts = new Float64Array(statistic.units).fill(1);
  return Array.from({ length: statistic.units }, (_, unit) => {
    counts[unit] = 0;
    const value = statistic.evaluate(counts);
    counts[unit] = 1;
    return value;
  });
}

/**
 * What leaving units out tells of a statistic: its bias and standard error in its own unit, and how its standard
 * error changes with its value (`acceleration`, without a unit).
 */
export type JackknifeSummary = {
  readonly bias: number;
  readonly se: number;
  /** a of the BCa interval: Σ d³ / (6 (Σ d²)^1.5) with d = mean - value; 0 when all values are equal. */
  readonly acceleration: number;
};

/**
 * Jackknife estimates from the leave-one-out values θ₍ᵢ₎ of n units and the estimate θ of them all.
 *
 * With θ₍.₎ the mean of the θ₍ᵢ₎ and d_i = θ₍.₎ − θ₍ᵢ₎:
 *   bias = (n − 1)(θ₍.₎ − θ)
 *   se = √((n − 1)/n · Σ d²)
 *   acceleration a = Σ d³ / (6 (Σ d²)^1.5), 0 when all values are equal
 *
 * In: at least one value. Source: Efron & Tibshirani 1993, An Introduction to the Bootstrap, chapter 11 and
 * equation 14.15.
 *
 * @example Of a mean the bias is 0 and the error s / √n: here s² = 7, n = 3.
 * jackknifeSummary([4, 3.5, 1.5], 3) // { "bias": 0, "se": 1.5275, "acceleration": 0.0573 }
 */
export function jackknifeSummary(values: readonly number[], estimate: number): JackknifeSummary {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  let squares = 0;
  let cubes = 0;
  for (const value of values) {
    squares += (mean - value) ** 2;
    cubes += (mean - value) ** 3;
  }
  const acceleration = squares > 0 ? cubes / (6 * squares ** 1.5) : 0;
  return { bias: (n - 1) * (mean - estimate), se: Math.sqrt(((n - 1) / n) * squares), acceleration };
}
