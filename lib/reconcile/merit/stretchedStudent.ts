import { choleskyFactor, lowerInverse } from '#lib/stats/cholesky';
import type { SeededRandom } from '#lib/stats/seededRandom';

/** Log density up to a constant, at a point of `size` coordinates. */
export type LogDensity = (theta: Float64Array) => number;

/** A linear map with its inverse (both size × size, row-major) and the log of its determinant. */
export type Shape = { readonly map: Float64Array; readonly inverse: Float64Array; readonly logDeterminant: number };

/**
 * Split Student distribution (Geweke 1989): x = centre + map (stretch ∘ t), where each coordinate of the Student vector t is
 * stretched differently to either side, because the posterior of an SD that the data hardly show is lopsided.
 */
export type StretchedStudent = {
  readonly centre: Float64Array;
  readonly shape: Shape;
  readonly up: Float64Array;
  readonly down: Float64Array;
};

const FREEDOM = 8;
/** Distance, in SDs of the normal approximation, at which each side's stretch is read off. */
const PROBE = 2;

/** Around a mode: the stretches make it fall as the density does at two SDs along each direction of the shape. */
export function stretchedAround(density: LogDensity, mode: Float64Array, shape: Shape): StretchedStudent {
  const middle = density(mode);
  const stretch = (axis: number, side: number) => {
    const point = mode.map((value, row) => value + side * PROBE * shape.map[row * mode.length + axis]);
    const loss = Math.max(middle - density(point), 1e-3);
    return Math.min(3, Math.max(0.5, PROBE / Math.sqrt(2 * loss)));
  };
  return {
    centre: mode,
    shape,
    up: mode.map((_, axis) => stretch(axis, 1)),
    down: mode.map((_, axis) => stretch(axis, -1)),
  };
}

/** Around weighted points, by their mean and covariance; null when they do not span every direction. Weights sum to 1. */
export function fittedStudent(points: readonly Float64Array[], weights: readonly number[]): StretchedStudent | null {
  const size = points[0]?.length ?? 0;
  const centre = new Float64Array(size);
  points.forEach((point, at) => {
    for (let row = 0; row < size; row += 1) centre[row] = centre[row] + (weights[at] ?? 0) * point[row];
  });
  const lower = new Float64Array(size * size);
  points.forEach((point, at) => {
    for (let row = 0; row < size; row += 1) {
      const gap = (weights[at] ?? 0) * (point[row] - centre[row]);
      for (let column = 0; column <= row; column += 1) {
        const other = point[column] - centre[column];
        lower[row * size + column] = lower[row * size + column] + gap * other;
      }
    }
  });
  if (!choleskyFactor(lower, size)) return null;
  for (let row = 0; row < size; row += 1)
    for (let column = row + 1; column < size; column += 1) lower[row * size + column] = 0;
  const ones = new Float64Array(size).fill(1);
  return {
    centre,
    shape: { map: lower, inverse: lowerInverse(lower, size), logDeterminant: logDiagonal(lower, size) },
    up: ones,
    down: ones,
  };
}

/** Σ log of the diagonal of a triangular matrix. */
export function logDiagonal(matrix: Float64Array, size: number): number {
  let sum = 0;
  for (let row = 0; row < size; row += 1) sum += Math.log(matrix[row * size + row]);
  return sum;
}

export function drawStretched(student: StretchedStudent, random: SeededRandom): Float64Array {
  const { centre, shape, up, down } = student;
  const scale = Math.sqrt(FREEDOM / (2 * random.gamma(FREEDOM / 2)));
  const t = centre.map((_, axis) => {
    const z = random.normal() * scale;
    return z * (z >= 0 ? up[axis] : down[axis]);
  });
  return centre.map((value, row) => value + rowTimes(shape.map, row, t));
}

/** Log density up to a constant that depends on the size alone. */
export function logStretchedDensity(student: StretchedStudent, point: Float64Array): number {
  const { centre, shape, up, down } = student;
  const gap = point.map((value, row) => value - centre[row]);
  let [squares, logStretch] = [0, 0];
  for (let axis = 0; axis < gap.length; axis += 1) {
    const z = rowTimes(shape.inverse, axis, gap);
    const stretch = z >= 0 ? up[axis] : down[axis];
    squares += (z / stretch) ** 2;
    logStretch += Math.log(stretch);
  }
  return -((FREEDOM + gap.length) / 2) * Math.log1p(squares / FREEDOM) - logStretch - shape.logDeterminant;
}

function rowTimes(matrix: Float64Array, row: number, vector: Float64Array): number {
  const start = row * vector.length;
  let sum = 0;
  for (let column = 0; column < vector.length; column += 1) sum += matrix[start + column] * vector[column];
  return sum;
}
