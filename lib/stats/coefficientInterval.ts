import { BOOTSTRAP_DRAWS, bootstrapInterval, FEWEST_UNITS, type BootstrapInterval } from './bootstrapInterval';
import type { Coefficient, Undefined } from './coefficient';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, type ScoreTable } from './scoreTable';
import { seedFromNumbers } from './seededRandom';

/**
 * A coefficient with its bootstrap interval at 95% from 2,000 draws. `bootstrap` says how it was made; it is null,
 * as are the limits, with fewer units than `FEWEST_UNITS` or where the draws tell nothing.
 */
export type BootstrappedCoefficient = Coefficient & { readonly bootstrap: BootstrapInterval | null };

/**
 * A coefficient of a table with the bootstrap interval over its units.
 *
 * The value is the statistic with every unit once. The seed of the draws comes from the scores alone, so that the
 * same scores give the same limits in whatever order their rows and columns stand (ST2).
 *
 * In: `statistic` of the units of `table`, or the reason why there is none, which is handed on.
 * Undefined besides: 'no variation' where the statistic of the sample itself has no value.
 * Source: `bootstrapInterval`.
 *
 * @example Four units are too few for limits.
 * const table = [[1, 1, 2], [3, 3, 3], [2, 2, 2], [1, 2, 3]]
 * const { value, low, bootstrap } = coefficientInterval(resampledPercent(table), table)
 * [value, low, bootstrap] // [0.5833, null, null]
 *
 * @example Eight units: W of two raters who nearly agree, with its limits.
 * const two = [[1, 2], [2, 1], [3, 3], [4, 4], [5, 6], [6, 5], [7, 7], [8, 8]]
 * const { value, low, high, bootstrap } = coefficientInterval(resampledW(two), two)
 * value // 0.9762
 * [low < value, value < high, bootstrap.draws] // [true, true, 2000]
 */
export function coefficientInterval(
  statistic: ResampledStatistic | Undefined,
  table: ScoreTable,
): BootstrappedCoefficient | Undefined {
  if ('undefined' in statistic) return statistic;
  const value = statistic.evaluate(new Float64Array(statistic.units).fill(1));
  if (value === null) return { undefined: 'no variation' };
  if (statistic.units < FEWEST_UNITS) return { value, low: null, high: null, bootstrap: null };
  const bootstrap = bootstrapInterval(statistic, { level: 0.95, draws: BOOTSTRAP_DRAWS, seed: tableSeed(table) });
  return { value, low: bootstrap?.low ?? null, high: bootstrap?.high ?? null, bootstrap };
}

/**
 * A seed for the draws about a table, from its scores and gaps: the same for any order of its rows and columns
 * (ST2).
 *
 * @example
 * tableSeed([[1, 2], [3, null]]) === tableSeed([[null, 3], [2, 1]]) // true
 * tableSeed([[1, 2], [3, 4]]) === tableSeed([[1, 2], [3, 5]]) // false
 */
export function tableSeed(table: ScoreTable): number {
  return seedFromNumbers(
    canonicalTable(table).flatMap((row) => [row.length, ...row.map((score) => score ?? Number.MAX_VALUE)]),
  );
}
