import { choleskyFactor, choleskySolve } from './cholesky';
import type { ScoreTable } from './scoreTable';

type SumOfSquares = { readonly squares: number; readonly degrees: number };

/** Sums of squares of a table of units × raters; `each` is how many scores a level's mean rests on (harmonic mean). */
export type AdditiveFit = {
  readonly units: SumOfSquares & { readonly each: number };
  readonly raters: SumOfSquares & { readonly each: number };
  readonly error: SumOfSquares;
};

/**
 * Least squares fit of y_ij = u_i + c_j (Σc = 0), any cells missing. Sums of squares of units and raters are `each` times the squares of the fitted effects about their mean:
 * those of the analysis of variance where no cell is missing. Null when the table hangs in parts or leaves no degree of freedom for the error.
 * Worked example: of Shrout & Fleiss's 6 × 4 table units 56.21, raters 97.46, error 15.29.
 */
export function additiveFit(table: ScoreTable): AdditiveFit | null {
  const [n, k] = [table.length, table[0]?.length ?? 0];
  const cells = table.flatMap((row, unit) => row.flatMap((score, rater) => (score === null ? [] : [{ unit, rater, score }])));
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
  const squares = cells.reduce((sum, { unit, rater, score }) => sum + (score - (effects[unit] ?? 0) - (effects[n + rater] ?? 0)) ** 2, 0);
  const counts = (of: 'unit' | 'rater', levels: number) => Array.from({ length: levels }, (_, level) => cells.filter((cell) => cell[of] === level).length);
  return {
    units: { ...spreadOf(effects.slice(0, n), counts('unit', n)), degrees: n - 1 },
    raters: { ...spreadOf(effects.slice(n), counts('rater', k)), degrees: k - 1 },
    error: { squares, degrees },
  };
}

function spreadOf(effects: readonly number[], counts: readonly number[]): { readonly squares: number; readonly each: number } {
  const mean = effects.reduce((sum, effect) => sum + effect, 0) / effects.length;
  const each = counts.length / counts.reduce((sum, count) => sum + 1 / Math.max(1, count), 0);
  return { each, squares: each * effects.reduce((sum, effect) => sum + (effect - mean) ** 2, 0) };
}
