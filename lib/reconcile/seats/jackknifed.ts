import { studentQuantile } from '#lib/stats/studentDistribution';
import type { Figure } from './leastSquaresInterval';

/**
 * A statistic of independent units with its 90% interval by the delete-one jackknife (Tukey 1958), Student with n − 1 degrees of freedom, on the
 * scale the statistic is computed on; `back` maps value and limits to the scale shown (increasing). Undefined where the statistic is.
 */
export function jackknifed<T>(
  units: readonly T[],
  statistic: (units: readonly T[]) => number | null,
  back: (value: number) => number,
): Figure {
  const value = statistic(units);
  if (value === null) return { undefined: 'no variation' };
  const without = units.map((_, left) => statistic(units.filter((_unit, at) => at !== left)));
  const defined = without.filter((one) => one !== null);
  if (defined.length < units.length) return { undefined: 'too few data' };
  const count = defined.length;
  const mean = defined.reduce((sum, one) => sum + one, 0) / count;
  const error = Math.sqrt(((count - 1) / count) * defined.reduce((sum, one) => sum + (one - mean) ** 2, 0));
  const reach = studentQuantile(0.95, count - 1) * error;
  return { value: back(value), low: back(value - reach), high: back(value + reach) };
}
