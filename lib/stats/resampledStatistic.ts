/** A statistic as a function of how often each unit counts: 1 each is the sample, other counts a resample, one 0 a leave-one-out. */
export type ResampledStatistic = {
  readonly units: number;
  /** Null where it is undefined. */
  evaluate(counts: ArrayLike<number>): number | null;
};

/** The statistic with each unit left out in turn. */
export function jackknifeValues(statistic: ResampledStatistic): (number | null)[] {
  const counts = new Float64Array(statistic.units).fill(1);
  return Array.from({ length: statistic.units }, (_, unit) => {
    counts[unit] = 0;
    const value = statistic.evaluate(counts);
    counts[unit] = 1;
    return value;
  });
}

export type JackknifeSummary = {
  readonly bias: number;
  readonly se: number;
  /** a of the BCa interval: Σ d³ / (6 (Σ d²)^1.5) with d = mean - value; 0 when all values are equal. */
  readonly acceleration: number;
};

/** Efron & Tibshirani 1993, chapter 11 and equation 14.15. Worked example: of a mean, bias 0 and se = s / √n. */
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
