import { studentQuantile } from '#lib/stats/studentDistribution';

/** A figure with its 90% interval, or why there is none (ST1). */
export type Figure =
  | { readonly value: number; readonly low: number; readonly high: number }
  | { readonly undefined: string };

/** Mean of at least two values, with limits never below `least`. */
export function meanInterval(values: readonly number[], least: number): Figure {
  const count = values.length;
  const value = values.reduce((sum, one) => sum + one, 0) / count;
  const variance = values.reduce((sum, one) => sum + (one - value) ** 2, 0) / (count - 1);
  const reach = studentQuantile(0.95, count - 1) * Math.sqrt(variance / count);
  return { value, low: Math.max(least, value - reach), high: value + reach };
}

/** Least squares slope of y on x, three points or more, Student with n − 2 degrees of freedom. */
export function slopeInterval(points: readonly { readonly x: number; readonly y: number }[]): Figure {
  const count = points.length;
  const [meanX, meanY] = [
    points.reduce((sum, { x }) => sum + x, 0) / count,
    points.reduce((sum, { y }) => sum + y, 0) / count,
  ];
  const spread = points.reduce((sum, { x }) => sum + (x - meanX) ** 2, 0);
  if (!(spread > 0)) return { undefined: 'no variation' };
  const value = points.reduce((sum, { x, y }) => sum + (x - meanX) * (y - meanY), 0) / spread;
  const squares = points.reduce((sum, { x, y }) => sum + (y - meanY - value * (x - meanX)) ** 2, 0);
  const reach = studentQuantile(0.95, count - 2) * Math.sqrt(squares / (count - 2) / spread);
  return { value, low: value - reach, high: value + reach };
}
