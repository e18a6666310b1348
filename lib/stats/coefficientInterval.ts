import { BOOTSTRAP_DRAWS, bootstrapInterval, FEWEST_UNITS, type BootstrapInterval } from './bootstrapInterval';
import type { Coefficient, Undefined } from './coefficient';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, type ScoreTable } from './scoreTable';
import { seedFromNumbers } from './seededRandom';

/** A coefficient with its bootstrap interval: 95%, 2,000 draws, seed from the scores alone (ST2); `bootstrap` is null below eight units. */
export type BootstrappedCoefficient = Coefficient & { readonly bootstrap: BootstrapInterval | null };

/** @param statistic of the units of `table`, or why there is none. */
export function coefficientInterval(statistic: ResampledStatistic | Undefined, table: ScoreTable): BootstrappedCoefficient | Undefined {
  if ('undefined' in statistic) return statistic;
  const value = statistic.evaluate(new Float64Array(statistic.units).fill(1));
  if (value === null) return { undefined: 'no variation' };
  if (statistic.units < FEWEST_UNITS) return { value, low: null, high: null, bootstrap: null };
  const bootstrap = bootstrapInterval(statistic, { level: 0.95, draws: BOOTSTRAP_DRAWS, seed: tableSeed(table) });
  return { value, low: bootstrap?.low ?? null, high: bootstrap?.high ?? null, bootstrap };
}

/** A seed that is the same for any order of rows and columns. */
export function tableSeed(table: ScoreTable): number {
  return seedFromNumbers(canonicalTable(table).flatMap((row) => [row.length, ...row.map((score) => score ?? Number.MAX_VALUE)]));
}
