/**
 * L D Lᵀ factorisation of a symmetric positive definite matrix M on a known pattern.
 *
 * L is unit lower triangular, D diagonal: no square roots. With an order that keeps it sparse (`eliminationOrder`)
 * the work goes by the entries of L. Storage is dense (row-major, upper triangle): designs here have at most some
 * hundred effects, where looking entries up costs more than the memory.
 *
 * Source: Golub & Van Loan 1996, Matrix Computations, section 4.1; Davis 2006, Direct Methods for Sparse
 * Linear Systems.
 */
export type SparseFactor = {
  /** Rows of M. */
  readonly size: number;
  /** Per column of L, ascending rows below the diagonal. */
  readonly patterns: readonly Int32Array[];
  /**
   * Before `factorise`: the matrix. After: row j, right of the diagonal, is column j of the unit lower triangular L.
   */
  readonly upper: Float64Array;
  /** D. */
  readonly pivots: Float64Array;
};

/**
 * Replaces M in `upper` by L and D: eliminates unknown j from those that its column touches, for j = 1 … size.
 *
 * d_j = M_jj, l_ij = M_ij / d_j, and M_ik ← M_ik − l_ij M_kj for i, k in the column's pattern.
 * False when a pivot is not clearly positive (below 1e−10 of its own diagonal entry); `upper` is then half done.
 *
 * @example M = (4, 2; 2, 5): L₂₁ = ½, D = 4 and 5 − 2 · ½.
 * const factor = { size: 2, patterns: [[1], []], upper: Float64Array.of(4, 2, 0, 5), pivots: new Float64Array(2) }
 * factorise(factor) // true
 * [factor.upper[1], ...factor.pivots] // [0.5, 4, 4]
 */
export function factorise({ upper, pivots, patterns, size }: SparseFactor): boolean {
  const row = new Float64Array(size);
  for (let j = 0; j < size; j += 1) pivots[j] = upper[j * size + j];
  for (let j = 0; j < size; j += 1) {
    const pattern = patterns[j];
    const length = pattern.length;
    const pivot = upper[j * size + j];
    if (!(pivot > 1e-10 * pivots[j])) return false;
    pivots[j] = pivot;
    for (let a = 0; a < length; a += 1) row[a] = upper[j * size + pattern[a]];
    for (let a = 0; a < length; a += 1) {
      const value = row[a];
      const factor = value / pivot;
      upper[j * size + pattern[a]] = factor;
      if (value === 0) continue;
      const start = pattern[a] * size;
      for (let b = a; b < length; b += 1) {
        const at = start + pattern[b];
        upper[at] = upper[at] - factor * row[b];
      }
    }
  }
  return true;
}

/**
 * Solves M x = b in place: L z = b, then Lᵀ x = D⁻¹ z.
 *
 * @example 4x + 2y = 8 and 2x + 5y = 12.
 * const factor = { size: 2, patterns: [[1], []], upper: Float64Array.of(4, 0.5, 0, 4), pivots: Float64Array.of(4, 4) }
 * const b = Float64Array.of(8, 12)
 * solveFactored(factor, b)
 * b // [1, 2]
 */
export function solveFactored({ upper, pivots, patterns, size }: SparseFactor, b: Float64Array): void {
  for (let j = 0; j < size; j += 1) {
    const value = b[j];
    if (value === 0) continue;
    const pattern = patterns[j];
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a];
      b[i] = b[i] - upper[j * size + i] * value;
    }
  }
  for (let j = size - 1; j >= 0; j -= 1) {
    let value = b[j] / pivots[j];
    const pattern = patterns[j];
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a];
      value -= upper[j * size + i] * b[i];
    }
    b[j] = value;
  }
}

/**
 * Diagonal of M⁻¹ without the rest of it, from S = D⁻¹L⁻¹ + (I − Lᵀ) S, S = M⁻¹, taken on the pattern of L, last
 * column first:
 *   S_ij = −Σ_k l_kj S_ik for i in column j,   S_jj = 1/d_j − Σ_k l_kj S_kj.
 *
 * Source: Takahashi, Fagan & Chen 1973 (sparse inverse).
 *
 * @example (5, −2; −2, 4) / 16.
 * const factor = { size: 2, patterns: [[1], []], upper: Float64Array.of(4, 0.5, 0, 4), pivots: Float64Array.of(4, 4) }
 * inverseDiagonalOf(factor) // [0.3125, 0.25]
 */
export function inverseDiagonalOf({ upper, pivots, patterns, size }: SparseFactor): Float64Array {
  const inverse = new Float64Array(size * size); // upper triangle
  const diagonal = new Float64Array(size);
  const column = new Float64Array(size);
  const sums = new Float64Array(size);
  for (let j = size - 1; j >= 0; j -= 1) {
    const pattern = patterns[j];
    const length = pattern.length;
    for (let a = 0; a < length; a += 1) column[a] = upper[j * size + pattern[a]];
    sums.fill(0, 0, length);
    for (let a = 0; a < length; a += 1) {
      const start = pattern[a] * size;
      const own = column[a];
      let sum = sums[a] - own * diagonal[pattern[a]];
      for (let b = a + 1; b < length; b += 1) {
        const value = inverse[start + pattern[b]];
        sum -= column[b] * value;
        sums[b] = sums[b] - own * value;
      }
      sums[a] = sum;
    }
    let own = 1 / pivots[j];
    for (let a = 0; a < length; a += 1) {
      inverse[j * size + pattern[a]] = sums[a];
      own -= column[a] * sums[a];
    }
    diagonal[j] = own;
  }
  return diagonal;
}

/**
 * log |M| = Σ log d_j.
 *
 * @example |M| = 16.
 * logDeterminant({ size: 2, patterns: [[1], []], upper: new Float64Array(4), pivots: Float64Array.of(4, 4) }) // 2.7726
 */
export function logDeterminant({ pivots }: SparseFactor): number {
  let sum = 0;
  for (let j = 0; j < pivots.length; j += 1) sum += Math.log(pivots[j]);
  return sum;
}
