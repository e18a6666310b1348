import { normalCdf, normalQuantile } from './normalDistribution';
import { jackknifeSummary, jackknifeValues, type ResampledStatistic } from './resampledStatistic';
import { createSeededRandom } from './seededRandom';

/** Fewest units an interval is drawn from. */
export const FEWEST_UNITS = 8;
/** Resamples drawn for an interval: about fifty lie in each tail of 2.5%. Common practice. */
export const BOOTSTRAP_DRAWS = 2000;

/** Level of the interval (0 … 1), number of resamples, and the seed of their draws. */
export type BootstrapSettings = { readonly level: number; readonly draws: number; readonly seed: number };

/** Limits in the unit of the statistic, and how they were made. */
export type BootstrapInterval = {
  readonly low: number;
  readonly high: number;
  readonly method: 'bca' | 'percentile';
  readonly draws: number;
  /** Draws for which the statistic does not exist (all scores alike, say); the interval rests on the others. */
  readonly undefinedDraws: number;
};

/**
 * Interval by resampling units with replacement: bias-corrected and accelerated (BCa) where it is defined, else
 * percentile.
 *
 * From B draws θ*: the limits are the θ* quantiles at α₁ and α₂ of `adjustedLevels`, where z₀ = Φ⁻¹(share of θ*
 * below θ, equal ones half) and the acceleration is that of the jackknife. Quantile: the smallest value with
 * cumulative share ≥ level.
 *
 * Rough: with few units it covers less than it says, which no number of draws mends.
 * Null when the statistic or every draw is undefined, or when no draw differs from another. Draws without a value
 * are left out and counted.
 *
 * Source: Efron 1987, Better bootstrap confidence intervals; Efron & Tibshirani 1993, chapters 13 and 14.
 *
 * @example The mean of 1 … 9: near 5 ± 1.96 · 0.86.
 * const sum = (n, of) => Array.from(n).reduce((total, count, i) => total + count * of(i), 0)
 * const mean = { units: 9, evaluate: (n) => sum(n, (i) => i + 1) / sum(n, () => 1) }
 * const { low, high, method } = bootstrapInterval(mean, { level: 0.95, draws: 2000, seed: 1 })
 * [Math.abs(low - 3.31) < 0.25, Math.abs(high - 6.69) < 0.25, method] // [true, true, "bca"]
 * bootstrapInterval({ units: 9, evaluate: () => 1 }, { level: 0.95, draws: 100, seed: 1 }) // null
 */
export function bootstrapInterval(
  statistic: ResampledStatistic,
  settings: BootstrapSettings,
): BootstrapInterval | null {
  const estimate = statistic.evaluate(new Float64Array(statistic.units).fill(1));
  if (estimate === null) return null;
  const { values, undefinedDraws } = bootstrapDraws(statistic, settings);
  if (values.length === 0 || same(values[0] ?? 0, values[values.length - 1] ?? 0)) return null;
  const levels = bcaLevels({
    values,
    estimate,
    acceleration: accelerationOf(statistic, estimate),
    level: settings.level,
  });
  const tail = (1 - settings.level) / 2;
  const [lower, upper] = levels ?? [tail, 1 - tail];
  return {
    low: sortedQuantile(values, lower),
    high: sortedQuantile(values, upper),
    method: levels === null ? 'percentile' : 'bca',
    draws: settings.draws,
    undefinedDraws,
  };
}

/**
 * The values of a statistic over `draws` resamples of as many units as there are, ascending, without the undefined
 * ones.
 *
 * @example Every resample of two units that are alike has the mean 3.
 * const mean = { units: 2, evaluate: (n) => (3 * n[0] + 3 * n[1]) / 2 }
 * bootstrapDraws(mean, { level: 0.9, draws: 4, seed: 1 }) // { "values": [3, 3, 3, 3], "undefinedDraws": 0 }
 */
export function bootstrapDraws(
  statistic: ResampledStatistic,
  { draws, seed }: BootstrapSettings,
): { values: Float64Array; undefinedDraws: number } {
  const random = createSeededRandom(seed);
  const { units } = statistic;
  const counts = new Int32Array(units);
  const values = new Float64Array(draws);
  let defined = 0;
  for (let draw = 0; draw < draws; draw += 1) {
    counts.fill(0);
    for (let pick = 0; pick < units; pick += 1) {
      const unit = random.below(units);
      counts[unit] = counts[unit] + 1;
    }
    const value = statistic.evaluate(counts);
    if (value === null) continue;
    values[defined] = value;
    defined += 1;
  }
  return { values: values.subarray(0, defined).sort(), undefinedDraws: draws - defined };
}

function accelerationOf(statistic: ResampledStatistic, estimate: number): number | null {
  const values = jackknifeValues(statistic).filter((value) => value !== null);
  return values.length < statistic.units ? null : jackknifeSummary(values, estimate).acceleration;
}

type BcaQuestion = {
  readonly values: Float64Array;
  readonly estimate: number;
  readonly acceleration: number | null;
  readonly level: number;
};

function bcaLevels({ values, estimate, acceleration, level }: BcaQuestion): [number, number] | null {
  if (acceleration === null) return null;
  let below = 0;
  for (const value of values) {
    if (same(value, estimate)) below += 0.5;
    else if (value < estimate) below += 1;
  }
  return adjustedLevels({ below: below / values.length, acceleration, level });
}

/**
 * The levels at which BCa reads the draws' quantiles, for a share of draws below the estimate.
 *
 * With z₀ = Φ⁻¹(below), a the acceleration, and z = Φ⁻¹((1 ∓ level) / 2): α = Φ(z₀ + (z₀ + z) / (1 − a (z₀ + z))).
 * In: `below` and `level` from 0 to 1. Null where the formula has no value (all draws on one side, say).
 *
 * Source: Efron 1987; Efron & Tibshirani 1993, equation 14.10.
 *
 * @example Balanced draws and no acceleration: the percentile levels. 60% below: both move up.
 * adjustedLevels({ below: 0.5, acceleration: 0, level: 0.9 }) // [0.05, 0.95]
 * adjustedLevels({ below: 0.6, acceleration: 0, level: 0.9 }) // [0.1275, 0.9843]
 * adjustedLevels({ below: 1, acceleration: 0, level: 0.9 }) // null
 */
export function adjustedLevels({
  below,
  acceleration,
  level,
}: {
  below: number;
  acceleration: number;
  level: number;
}): [number, number] | null {
  const bias = normalQuantile(below);
  if (!Number.isFinite(bias)) return null;
  const adjusted = [(1 - level) / 2, (1 + level) / 2].map((probability) => {
    const shifted = bias + normalQuantile(probability);
    const divisor = 1 - acceleration * shifted;
    return divisor > 0 ? normalCdf(bias + shifted / divisor) : null;
  });
  const [lower, upper] = adjusted;
  return lower === null || upper === null || lower === undefined || upper === undefined || !(lower < upper)
    ? null
    : [lower, upper];
}

/**
 * Smallest of the ascending values whose cumulative share reaches the level (0 … 1): the ⌈level · n⌉-th.
 *
 * Source: the inverse of the empirical distribution function; type 1 of Hyndman & Fan 1996.
 *
 * @example
 * sortedQuantile(Float64Array.of(1, 2, 3, 4), 0.5) // 2
 * sortedQuantile(Float64Array.of(1, 2, 3, 4), 0.51) // 3
 */
export function sortedQuantile(sorted: Float64Array, level: number): number {
  const at = Math.ceil(level * sorted.length - 1e-9) - 1;
  return sorted[Math.min(Math.max(at, 0), sorted.length - 1)];
}

/** Equal but for rounding. */
function same(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-12 * Math.max(1, Math.abs(a));
}
