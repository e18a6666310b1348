/**
 * Dense symmetric positive definite systems. Matrices are row-major Float64Array of n × n; only the lower triangle
 * is read and written. Algorithm: Cholesky–Banachiewicz (Golub & Van Loan, Matrix Computations, section 4.2).
 */

/**
 * Replaces the lower triangle of `a` by its factor L with A = L Lᵀ; the strict upper triangle is left as it was.
 * False (and `a` half done) when a pivot is not clearly positive, that is below 1e-14 of its own diagonal entry.
 * Worked example: [4, 2, 2, 5] becomes lower triangle 2, 1, 2.
 */
export function choleskyFactor(a: Float64Array, n: number): boolean {
  for (let row = 0; row < n; row += 1) {
    const rowStart = row * n;
    for (let column = 0; column < row; column += 1) {
      const columnStart = column * n;
      let sum = a[rowStart + column];
      for (let k = 0; k < column; k += 1) sum -= (a[rowStart + k]) * (a[columnStart + k]);
      a[rowStart + column] = sum / (a[columnStart + column]);
    }
    const diagonal = a[rowStart + row];
    let pivot = diagonal;
    for (let k = 0; k < row; k += 1) pivot -= (a[rowStart + k]) ** 2;
    if (!(pivot > 1e-14 * diagonal) || !(diagonal > 0)) return false;
    a[rowStart + row] = Math.sqrt(pivot);
  }
  return true;
}

/** Solves L x = b in place. */
export function lowerSolve(l: Float64Array, n: number, b: Float64Array): void {
  for (let row = 0; row < n; row += 1) {
    const start = row * n;
    let sum = b[row];
    for (let k = 0; k < row; k += 1) sum -= (l[start + k]) * (b[k]);
    b[row] = sum / (l[start + row]);
  }
}

/** Solves Lᵀ x = b in place. */
export function lowerTransposeSolve(l: Float64Array, n: number, b: Float64Array): void {
  for (let row = n - 1; row >= 0; row -= 1) {
    const start = row * n;
    const solved = (b[row]) / (l[start + row]);
    b[row] = solved;
    for (let k = 0; k < row; k += 1) b[k] = (b[k]) - solved * (l[start + k]);
  }
}

/** Solves A x = b in place, with L from `choleskyFactor`. */
export function choleskySolve(l: Float64Array, n: number, b: Float64Array): void {
  lowerSolve(l, n, b);
  lowerTransposeSolve(l, n, b);
}

/** log |A| = 2 Σ log L[i][i]. */
export function choleskyLogDeterminant(l: Float64Array, n: number): number {
  let sum = 0;
  for (let row = 0; row < n; row += 1) sum += Math.log(l[row * n + row]);
  return 2 * sum;
}

/** A⁻¹ (full, symmetric) from L. */
export function choleskyInverse(l: Float64Array, n: number): Float64Array {
  const lower = lowerInverse(l, n);
  const inverse = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1) {
    for (let k = row; k < n; k += 1) {
      const factor = lower[k * n + row];
      for (let column = 0; column <= row; column += 1) {
        const at = row * n + column;
        inverse[at] = (inverse[at]) + factor * (lower[k * n + column]);
      }
    }
  }
  for (let row = 0; row < n; row += 1) {
    for (let column = 0; column < row; column += 1) inverse[column * n + row] = inverse[row * n + column];
  }
  return inverse;
}

/** L⁻¹, lower triangular with zeros above. */
export function lowerInverse(l: Float64Array, n: number): Float64Array {
  const inverse = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1) {
    const start = row * n;
    const pivot = l[start + row];
    for (let k = 0; k < row; k += 1) {
      const factor = (l[start + k]) / pivot;
      if (factor === 0) continue;
      for (let column = 0; column <= k; column += 1) {
        inverse[start + column] = (inverse[start + column]) - factor * (inverse[k * n + column]);
      }
    }
    inverse[start + row] = 1 / pivot;
  }
  return inverse;
}
