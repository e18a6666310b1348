import { normalCdf, normalQuantile } from './normalDistribution';
import { jackknifeSummary, jackknifeValues, type ResampledStatistic } from './resampledStatistic';
import { createSeededRandom } from './seededRandom';

/** Fewest units an interval is drawn from. */
export const FEWEST_UNITS = 8;
export const BOOTSTRAP_DRAWS = 2000;

export type BootstrapSettings = { readonly level: number; readonly draws: number; readonly seed: number };

export type BootstrapInterval = {
  readonly low: number;
  readonly high: number;
  readonly method: 'bca' | 'percentile';
  readonly draws: number;
  /** Draws for which the statistic does not exist (all scores alike, say); the interval rests on the others. */
  readonly undefinedDraws: number;
};

/**
 * Interval by resampling units: bias-corrected and accelerated (BCa, Efron 1987) where it is defined, else percentile. Rough: with few units it covers
 * less than it says. Null when the statistic or every draw is undefined, or when no draw differs from another.
 * Quantiles: the smallest value with cumulative probability ≥ level. z₀ counts draws equal to the estimate half.
 */
export function bootstrapInterval(statistic: ResampledStatistic, settings: BootstrapSettings): BootstrapInterval | null {
  const estimate = statistic.evaluate(new Float64Array(statistic.units).fill(1));
  if (estimate === null) return null;
  const { values, undefinedDraws } = bootstrapDraws(statistic, settings);
  if (values.length === 0 || same(values[0] ?? 0, values[values.length - 1] ?? 0)) return null;
  const levels = bcaLevels({ values, estimate, acceleration: accelerationOf(statistic, estimate), level: settings.level });
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

/** The defined draws, ascending. */
export function bootstrapDraws(statistic: ResampledStatistic, { draws, seed }: BootstrapSettings): { values: Float64Array; undefinedDraws: number } {
  const random = createSeededRandom(seed);
  const { units } = statistic;
  const counts = new Int32Array(units);
  const values = new Float64Array(draws);
  let defined = 0;
  for (let draw = 0; draw < draws; draw += 1) {
    counts.fill(0);
    for (let pick = 0; pick < units; pick += 1) {
      const unit = random.below(units);
      counts[unit] = (counts[unit]) + 1;
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

type BcaQuestion = { readonly values: Float64Array; readonly estimate: number; readonly acceleration: number | null; readonly level: number };

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
 * The BCa levels for a share of draws below the estimate; null where the formula has no value (all draws on one side).
 * Source: Efron 1987; Efron & Tibshirani 1993, equation 14.10. Worked example: half the draws below and no acceleration: the percentile levels.
 */
export function adjustedLevels({ below, acceleration, level }: { below: number; acceleration: number; level: number }): [number, number] | null {
  const bias = normalQuantile(below);
  if (!Number.isFinite(bias)) return null;
  const adjusted = [(1 - level) / 2, (1 + level) / 2].map((probability) => {
    const shifted = bias + normalQuantile(probability);
    const divisor = 1 - acceleration * shifted;
    return divisor > 0 ? normalCdf(bias + shifted / divisor) : null;
  });
  const [lower, upper] = adjusted;
  return lower === null || upper === null || lower === undefined || upper === undefined || !(lower < upper) ? null : [lower, upper];
}

/** Smallest of the ascending values whose cumulative share reaches the level. */
export function sortedQuantile(sorted: Float64Array, level: number): number {
  const at = Math.ceil(level * sorted.length - 1e-9) - 1;
  return sorted[Math.min(Math.max(at, 0), sorted.length - 1)];
}

/** Equal but for rounding. */
function same(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-12 * Math.max(1, Math.abs(a));
}
