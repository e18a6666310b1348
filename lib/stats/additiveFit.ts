import { choleskyFactor, choleskySolve } from './cholesky';
import type { ScoreTable } from './scoreTable';

type SumOfSquares = { readonly squares: number; readonly degrees: number };

/**
 * Sums of squares of a table of units × raters in squared points, with their degrees of freedom; `each` is how
 * many scores a level's mean rests on (harmonic mean).
 */
export type AdditiveFit = {
  readonly units: SumOfSquares & { readonly each: number };
  readonly raters: SumOfSquares & { readonly each: number };
  readonly error: SumOfSquares;
};

/**
 * Least squares fit of y_ij = u_i + c_j with Σ c_j = 0, of units i and raters j, any cells missing.
 *
 * With n units and k raters: error = Σ (y − û − ĉ)² on N − n − k + 1 degrees of freedom, N the scores;
 * units = m_u Σ (û_i − û.)², raters = m_c Σ ĉ_j², m the harmonic mean of the scores per level (unweighted means).
 * Where no cell is missing these are the sums of squares of the analysis of variance.
 *
 * Null when gaps cut the table in parts, or when no degree of freedom is left for the error.
 * Source: Burdick & Graybill 1992, chapter 5 (unweighted means); Searle 1971, Linear Models.
 *
 * @example Shrout & Fleiss's 6 × 4 table.
 * const table = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]
 * const { units, raters, error } = additiveFit(table)
 * [units.squares, raters.squares, error.squares] // [56.21, 97.46, 15.29]
 * [units.degrees, raters.degrees, error.degrees] // [5, 3, 15]
 * additiveFit([[1, null], [null, 2]]) // null
 */
export function additiveFit(table: ScoreTable): AdditiveFit | null {
  const [n, k] = [table.length, table[0]?.length ?? 0];
  const cells = table.flatMap((row, unit) =>
    row.flatMap((score, rater) => (score === null ? [] : [{ unit, rater, score }])),
  );
  const degrees = cells.length - n - k + 1;
  if (degrees < 1) return null;
  const size = n + k;
  const normal = new Float64Array(size * size);
  const right = new Float64Array(size);
  const add = (row: number, column: number, value: number) => {
    normal[row * size + column] = (normal[row * size + column] ?? 0) + value;
  };
  for (const { unit, rater, score } of cells) {
    add(unit, unit, 1);
    add(n + rater, n + rater, 1);
    add(n + rater, unit, 1);
    right[unit] = (right[unit] ?? 0) + score;
    right[n + rater] = (right[n + rater] ?? 0) + score;
  }
  // The raters' effects sum to zero: their sum squared joins the squares to be made least.
  for (let row = n; row < size; row += 1) for (let column = n; column <= row; column += 1) add(row, column, 1);
  if (!choleskyFactor(normal, size)) return null;
  choleskySolve(normal, size, right);
  const effects = Array.from(right);
  const squares = cells.reduce(
    (sum, { unit, rater, score }) => sum + (score - (effects[unit] ?? 0) - (effects[n + rater] ?? 0)) ** 2,
    0,
  );
  const counts = (of: 'unit' | 'rater', levels: number) =>
    Array.from({ length: levels }, (_, level) => cells.filter((cell) => cell[of] === level).length);
  return {
    units: { ...spreadOf(effects.slice(0, n), counts('unit', n)), degrees: n - 1 },
    raters: { ...spreadOf(effects.slice(n), counts('rater', k)), degrees: k - 1 },
    error: { squares, degrees },
  };
}

function spreadOf(
  effects: readonly number[],
  counts: readonly number[],
): { readonly squares: number; readonly each: number } {
  const mean = effects.reduce((sum, effect) => sum + effect, 0) / effects.length;
  const each = counts.length / counts.reduce((sum, count) => sum + 1 / Math.max(1, count), 0);
  return { each, squares: each * effects.reduce((sum, effect) => sum + (effect - mean) ** 2, 0) };
}
