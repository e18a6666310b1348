import type { ScoreTable } from './scoreTable';
import type { TwoWayComponents } from './twoWayMeanSquares';

/**
 * Variance components of a table whose scores are exactly unit + rater: the limit of REML as the residual vanishes.
 *
 * y_ij = u_i + r_j with nothing left over: unit = the variance of the u_i (divisor: units − 1), rater = that of
 * the r_j, residual = 0. The parts are found by walking from one filled cell to the next.
 *
 * In: units × raters in points, gaps allowed, no empty row or column. Out: squared points.
 * Null when the scores are not such sums (beyond 1e−12 of the largest), or when gaps cut the table in two.
 *
 * Source: least squares of the additive two-way layout, common practice.
 *
 * @example Unit parts 0, 1, 3 about rater parts 1, 3: variances 7/3 and 2.
 * additiveComponents([[1, 3], [2, 4], [4, null]]) // { "unit": 2.3333, "rater": 2, "residual": 0 }
 * additiveComponents([[1, 3], [2, 5]]) // null
 * additiveComponents([[1, null], [null, 2]]) // null
 */
export function additiveComponents(table: ScoreTable): TwoWayComponents | null {
  const units: (number | null)[] = table.map((_, i) => (i === 0 ? 0 : null));
  const raters: (number | null)[] = (table[0] ?? []).map(() => null);
  const spread = table.flat().reduce<number>((most, score) => Math.max(most, Math.abs(score ?? 0)), 1);
  for (let changed = true; changed; ) {
    changed = false;
    for (const [i, row] of table.entries()) {
      for (const [j, score] of row.entries()) {
        if (score === null) continue;
        const unit = units[i] ?? null;
        const rater = raters[j] ?? null;
        if (unit !== null && rater !== null && Math.abs(score - unit - rater) > 1e-12 * spread) return null;
        if ((unit === null) === (rater === null)) continue;
        if (unit === null) units[i] = score - (rater ?? 0);
        else raters[j] = score - unit;
        changed = true;
      }
    }
  }
  if ([...units, ...raters].some((part) => part === null)) return null;
  return { unit: varianceOf(units), rater: varianceOf(raters), residual: 0 };
}

function varianceOf(parts: readonly (number | null)[]): number {
  const known = parts.filter((part) => part !== null);
  const mean = known.reduce((sum, part) => sum + part, 0) / known.length;
  return known.reduce((sum, part) => sum + (part - mean) ** 2, 0) / (known.length - 1);
}
