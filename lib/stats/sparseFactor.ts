/**
 * L D Lᵀ factorisation of a symmetric positive definite matrix on a known pattern. Storage is dense (row-major, upper triangle),
 * work is sparse: designs here have at most some hundred effects, where looking entries up costs more than the memory.
 */
export type SparseFactor = {
  readonly size: number;
  /** Per column of L, ascending rows below the diagonal. */
  readonly patterns: readonly Int32Array[];
  /** Before `factorise`: the matrix. After: row j, right of the diagonal, is column j of the unit lower triangular L. */
  readonly upper: Float64Array;
  /** D. */
  readonly pivots: Float64Array;
};

/** False when a pivot is not clearly positive (below 1e-10 of its own diagonal entry). */
export function factorise({ upper, pivots, patterns, size }: SparseFactor): boolean {
  const row = new Float64Array(size);
  for (let j = 0; j < size; j += 1) pivots[j] = upper[j * size + j];
  for (let j = 0; j < size; j += 1) {
    const pattern = patterns[j];
    const length = pattern.length;
    const pivot = upper[j * size + j];
    if (!(pivot > 1e-10 * (pivots[j]))) return false;
    pivots[j] = pivot;
    for (let a = 0; a < length; a += 1) row[a] = upper[j * size + (pattern[a])];
    for (let a = 0; a < length; a += 1) {
      const value = row[a];
      const factor = value / pivot;
      upper[j * size + (pattern[a])] = factor;
      if (value === 0) continue;
      const start = (pattern[a]) * size;
      for (let b = a; b < length; b += 1) {
        const at = start + (pattern[b]);
        upper[at] = (upper[at]) - factor * (row[b]);
      }
    }
  }
  return true;
}

/** Solves M x = b in place. */
export function solveFactored({ upper, pivots, patterns, size }: SparseFactor, b: Float64Array): void {
  for (let j = 0; j < size; j += 1) {
    const value = b[j];
    if (value === 0) continue;
    const pattern = patterns[j];
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a];
      b[i] = (b[i]) - (upper[j * size + i]) * value;
    }
  }
  for (let j = size - 1; j >= 0; j -= 1) {
    let value = (b[j]) / (pivots[j]);
    const pattern = patterns[j];
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a];
      value -= (upper[j * size + i]) * (b[i]);
    }
    b[j] = value;
  }
}

/** Diagonal of M⁻¹ from its entries on the pattern of L, last column first: Takahashi, Fagan & Chen 1973. */
export function inverseDiagonalOf({ upper, pivots, patterns, size }: SparseFactor): Float64Array {
  const inverse = new Float64Array(size * size); // upper triangle
  const diagonal = new Float64Array(size);
  const column = new Float64Array(size);
  const sums = new Float64Array(size);
  for (let j = size - 1; j >= 0; j -= 1) {
    const pattern = patterns[j];
    const length = pattern.length;
    for (let a = 0; a < length; a += 1) column[a] = upper[j * size + (pattern[a])];
    sums.fill(0, 0, length);
    for (let a = 0; a < length; a += 1) {
      const start = (pattern[a]) * size;
      const own = column[a];
      let sum = (sums[a]) - own * (diagonal[pattern[a]]);
      for (let b = a + 1; b < length; b += 1) {
        const value = inverse[start + (pattern[b])];
        sum -= (column[b]) * value;
        sums[b] = (sums[b]) - own * value;
      }
      sums[a] = sum;
    }
    let own = 1 / (pivots[j]);
    for (let a = 0; a < length; a += 1) {
      inverse[j * size + (pattern[a])] = sums[a];
      own -= (column[a]) * (sums[a]);
    }
    diagonal[j] = own;
  }
  return diagonal;
}

export function logDeterminant({ pivots }: SparseFactor): number {
  let sum = 0;
  for (let j = 0; j < pivots.length; j += 1) sum += Math.log(pivots[j]);
  return sum;
}
