/**
 * Dense symmetric positive definite systems. Matrices are row-major Float64Array of n × n; only the lower triangle
 * is read and written. Algorithm: Cholesky–Banachiewicz (Golub & Van Loan, Matrix Computations, section 4.2).
 */

/**
 * Replaces the lower triangle of `a` by its factor L with A = L Lᵀ; the strict upper triangle is left as it was.
 *
 * L_ij = (A_ij − Σ_k L_ik L_jk) / L_jj below the diagonal, L_ii = √(A_ii − Σ_k L_ik²) on it.
 * False (and `a` half done) when a pivot is not clearly positive, that is below 1e−14 of its own diagonal entry.
 *
 * @example
 * const a = Float64Array.of(4, 2, 2, 5)
 * choleskyFactor(a, 2) // true
 * a // [2, 2, 1, 2]
 * choleskyFactor(Float64Array.of(1, 2, 2, 1), 2) // false
 */
export function choleskyFactor(a: Float64Array, n: number): boolean {
  for (let row = 0; row < n; row += 1) {
    const rowStart = row * n;
    for (let column = 0; column < row; column += 1) {
      const columnStart = column * n;
      let sum = a[rowStart + column];
      for (let k = 0; k < column; k += 1) sum -= a[rowStart + k] * a[columnStart + k];
      a[rowStart + column] = sum / a[columnStart + column];
    }
    const diagonal = a[rowStart + row];
    let pivot = diagonal;
    for (let k = 0; k < row; k += 1) pivot -= a[rowStart + k] ** 2;
    if (!(pivot > 1e-14 * diagonal) || !(diagonal > 0)) return false;
    a[rowStart + row] = Math.sqrt(pivot);
  }
  return true;
}

/**
 * Solves L x = b in place, from the first row down.
 *
 * @example
 * const b = Float64Array.of(4, 6)
 * lowerSolve(Float64Array.of(2, 0, 1, 2), 2, b)
 * b // [2, 2]
 */
export function lowerSolve(l: Float64Array, n: number, b: Float64Array): void {
  for (let row = 0; row < n; row += 1) {
    const start = row * n;
    let sum = b[row];
    for (let k = 0; k < row; k += 1) sum -= l[start + k] * b[k];
    b[row] = sum / l[start + row];
  }
}

/**
 * Solves Lᵀ x = b in place, from the last row up.
 *
 * @example
 * const b = Float64Array.of(4, 6)
 * lowerTransposeSolve(Float64Array.of(2, 0, 1, 2), 2, b)
 * b // [0.5, 3]
 */
export function lowerTransposeSolve(l: Float64Array, n: number, b: Float64Array): void {
  for (let row = n - 1; row >= 0; row -= 1) {
    const start = row * n;
    const solved = b[row] / l[start + row];
    b[row] = solved;
    for (let k = 0; k < row; k += 1) b[k] = b[k] - solved * l[start + k];
  }
}

/**
 * Solves A x = b in place, with L from `choleskyFactor`: L z = b, then Lᵀ x = z.
 *
 * @example 4x + 2y = 8 and 2x + 5y = 12.
 * const b = Float64Array.of(8, 12)
 * choleskySolve(Float64Array.of(2, 0, 1, 2), 2, b)
 * b // [1, 2]
 */
export function choleskySolve(l: Float64Array, n: number, b: Float64Array): void {
  lowerSolve(l, n, b);
  lowerTransposeSolve(l, n, b);
}

/**
 * log |A| = 2 Σ log L_ii: no product that could overflow.
 *
 * @example |A| = 4 · 5 − 2 · 2 = 16.
 * choleskyLogDeterminant(Float64Array.of(2, 0, 1, 2), 2) // 2.7726
 */
export function choleskyLogDeterminant(l: Float64Array, n: number): number {
  let sum = 0;
  for (let row = 0; row < n; row += 1) sum += Math.log(l[row * n + row]);
  return 2 * sum;
}

/**
 * A⁻¹ = L⁻ᵀ L⁻¹ from L: full, symmetric, row-major.
 *
 * @example (5, −2; −2, 4) / 16.
 * choleskyInverse(Float64Array.of(2, 0, 1, 2), 2) // [0.3125, -0.125, -0.125, 0.25]
 */
export function choleskyInverse(l: Float64Array, n: number): Float64Array {
  const lower = lowerInverse(l, n);
  const inverse = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1) {
    for (let k = row; k < n; k += 1) {
      const factor = lower[k * n + row];
      for (let column = 0; column <= row; column += 1) {
        const at = row * n + column;
        inverse[at] = inverse[at] + factor * lower[k * n + column];
      }
    }
  }
  for (let row = 0; row < n; row += 1) {
    for (let column = 0; column < row; column += 1) inverse[column * n + row] = inverse[row * n + column];
  }
  return inverse;
}

/**
 * L⁻¹: lower triangular, zeros above.
 *
 * @example
 * lowerInverse(Float64Array.of(2, 0, 1, 2), 2) // [0.5, 0, -0.25, 0.5]
 */
export function lowerInverse(l: Float64Array, n: number): Float64Array {
  const inverse = new Float64Array(n * n);
  for (let row = 0; row < n; row += 1) {
    const start = row * n;
    const pivot = l[start + row];
    for (let k = 0; k < row; k += 1) {
      const factor = l[start + k] / pivot;
      if (factor === 0) continue;
      for (let column = 0; column <= k; column += 1) {
        inverse[start + column] = inverse[start + column] - factor * inverse[k * n + column];
      }
    }
    inverse[start + row] = 1 / pivot;
  }
  return inverse;
}
