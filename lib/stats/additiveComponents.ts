import type { ScoreTable } from './scoreTable';
import type { TwoWayComponents } from './twoWayMeanSquares';

/**
 * Components of a table (gaps allowed, no empty row or column) whose scores are exactly unit + rater: the variances of the two parts, residual 0.
 * That is the limit of REML as the residual vanishes. Null when they are not, or when gaps cut the table in two.
 * Worked example: [[1, 3], [2, 4], [4, null]] has unit parts 0, 1, 3 and rater parts 0, 2.
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
