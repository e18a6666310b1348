import { choleskyFactor, lowerInverse } from '#lib/stats/cholesky';
import { logDiagonal, type LogDensity, type Shape } from './stretchedStudent';

const GRADIENT_STEP = 1e-4;
const MOST_STEPS = 40;
/** Stops when a step gains less than this in log density: far below what the proposal needs. */
const ENOUGH = 0.05;

/**
 * The mode, by quasi-Newton steps (BFGS; Nocedal & Wright, section 6.1) with a forward-difference gradient.
 * @param variances rough posterior variance of each coordinate: the first steps' lengths.
 */
export function posteriorMode(density: LogDensity, start: Float64Array, variances: Float64Array): Float64Array {
  let point: Float64Array = Float64Array.from(start);
  let value = density(point);
  let gradient = differenceGradient(density, point, value);
  const inverse = diagonal(variances);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const direction = multiply(inverse, gradient);
    const moved = backtrack(density, { point, value, direction });
    if (!moved) return point;
    const next = differenceGradient(density, moved.point, moved.value);
    updateInverse(inverse, { move: subtract(moved.point, point), change: subtract(gradient, next) });
    const gain = moved.value - value;
    ({ point, value } = moved);
    gradient = next;
    if (gain < ENOUGH) return point;
  }
  return point;
}

/**
 * The map S with S S' the inverse of minus the second derivatives at the mode (differences of `step`): the shape of the density
 * there. Directions in which it is not clearly curved get the curvature of a wide prior instead.
 */
export function modeShape(density: LogDensity, mode: Float64Array, step: number): Shape {
  const size = mode.length;
  const middle = density(mode);
  const at = (moves: readonly number[]) => {
    const point = Float64Array.from(mode);
    for (const move of moves) point[move] = point[move] + step;
    return density(point);
  };
  const singles = Array.from(mode, (_, row) => at([row]));
  const curvature = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < row; column += 1) {
      const second = at([row, column]) - singles[row] - singles[column] + middle;
      curvature[row * size + column] = -second / (step * step);
    }
    const back = Float64Array.from(mode);
    back[row] = back[row] - step;
    curvature[row * size + row] = -(singles[row] + density(back) - 2 * middle) / (step * step);
  }
  return inverseRoot(factorWithFloor(curvature, size), size);
}

const LEAST_CURVATURE = 0.4;

function factorWithFloor(curvature: Float64Array, size: number): Float64Array {
  for (let mix = 0; ; mix = mix * 2 + 0.05) {
    const trial = Float64Array.from(curvature);
    const kept = Math.max(0, 1 - mix);
    for (let row = 0; row < size; row += 1) {
      for (let column = 0; column < row; column += 1) trial[row * size + column] = kept * trial[row * size + column];
      trial[row * size + row] = Math.max(LEAST_CURVATURE, trial[row * size + row]);
    }
    if (choleskyFactor(trial, size)) return trial;
  }
}

/** L⁻ᵀ, whose columns are independent directions of unit spread when L L' is the curvature. */
function inverseRoot(factor: Float64Array, size: number): Shape {
  const lower = lowerInverse(factor, size);
  const [map, inverse] = [new Float64Array(size * size), new Float64Array(size * size)];
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      map[column * size + row] = lower[row * size + column];
      inverse[column * size + row] = factor[row * size + column];
    }
  }
  return { map, inverse, logDeterminant: -logDiagonal(factor, size) };
}

function differenceGradient(density: LogDensity, point: Float64Array, value: number): Float64Array {
  return point.map((_, at) => {
    const moved = Float64Array.from(point);
    moved[at] = moved[at] + GRADIENT_STEP;
    return (density(moved) - value) / GRADIENT_STEP;
  });
}

type Line = { readonly point: Float64Array; readonly value: number; readonly direction: Float64Array };

function backtrack(density: LogDensity, line: Line): { point: Float64Array; value: number } | null {
  const longest = Math.max(...line.direction.map(Math.abs));
  for (let share = Math.min(1, 1.5 / longest), tries = 0; tries < 12; share *= 0.4, tries += 1) {
    const point = line.point.map((value, at) => value + share * line.direction[at]);
    const value = density(point);
    if (value > line.value) return { point, value };
  }
  return null;
}

function updateInverse(inverse: Float64Array, pair: { move: Float64Array; change: Float64Array }): void {
  const { move, change } = pair;
  const size = move.length;
  const curvature = dot(move, change);
  if (curvature <= 1e-12) return;
  const carried = multiply(inverse, change);
  const factor = (1 + dot(change, carried) / curvature) / curvature;
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      const cross = move[row] * carried[column] + carried[row] * move[column];
      const outer = move[row] * move[column];
      inverse[row * size + column] = inverse[row * size + column] + factor * outer - cross / curvature;
    }
  }
}

function diagonal(values: Float64Array): Float64Array {
  const size = values.length;
  const matrix = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) matrix[row * size + row] = values[row];
  return matrix;
}

function multiply(matrix: Float64Array, vector: Float64Array): Float64Array {
  const size = vector.length;
  return vector.map((_, row) => dot(matrix.subarray(row * size, (row + 1) * size), vector));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < a.length; at += 1) sum += a[at] * b[at];
  return sum;
}

function subtract(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, at) => value - b[at]);
}
