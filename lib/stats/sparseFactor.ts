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
  for (let j = 0; j < size; j += 1) pivots[j] = upper[j * size + j] as number;
  for (let j = 0; j < size; j += 1) {
    const pattern = patterns[j] as Int32Array;
    const length = pattern.length;
    const pivot = upper[j * size + j] as number;
    if (!(pivot > 1e-10 * (pivots[j] as number))) return false;
    pivots[j] = pivot;
    for (let a = 0; a < length; a += 1) row[a] = upper[j * size + (pattern[a] as number)] as number;
    for (let a = 0; a < length; a += 1) {
      const value = row[a] as number;
      const factor = value / pivot;
      upper[j * size + (pattern[a] as number)] = factor;
      if (value === 0) continue;
      const start = (pattern[a] as number) * size;
      for (let b = a; b < length; b += 1) {
        const at = start + (pattern[b] as number);
        upper[at] = (upper[at] as number) - factor * (row[b] as number);
      }
    }
  }
  return true;
}

/** Solves M x = b in place. */
export function solveFactored({ upper, pivots, patterns, size }: SparseFactor, b: Float64Array): void {
  for (let j = 0; j < size; j += 1) {
    const value = b[j] as number;
    if (value === 0) continue;
    const pattern = patterns[j] as Int32Array;
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a] as number;
      b[i] = (b[i] as number) - (upper[j * size + i] as number) * value;
    }
  }
  for (let j = size - 1; j >= 0; j -= 1) {
    let value = (b[j] as number) / (pivots[j] as number);
    const pattern = patterns[j] as Int32Array;
    for (let a = 0; a < pattern.length; a += 1) {
      const i = pattern[a] as number;
      value -= (upper[j * size + i] as number) * (b[i] as number);
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
    const pattern = patterns[j] as Int32Array;
    const length = pattern.length;
    for (let a = 0; a < length; a += 1) column[a] = upper[j * size + (pattern[a] as number)] as number;
    sums.fill(0, 0, length);
    for (let a = 0; a < length; a += 1) {
      const start = (pattern[a] as number) * size;
      const own = column[a] as number;
      let sum = (sums[a] as number) - own * (diagonal[pattern[a] as number] as number);
      for (let b = a + 1; b < length; b += 1) {
        const value = inverse[start + (pattern[b] as number)] as number;
        sum -= (column[b] as number) * value;
        sums[b] = (sums[b] as number) - own * value;
      }
      sums[a] = sum;
    }
    let own = 1 / (pivots[j] as number);
    for (let a = 0; a < length; a += 1) {
      inverse[j * size + (pattern[a] as number)] = sums[a] as number;
      own -= (column[a] as number) * (sums[a] as number);
    }
    diagonal[j] = own;
  }
  return diagonal;
}

export function logDeterminant({ pivots }: SparseFactor): number {
  let sum = 0;
  for (let j = 0; j < pivots.length; j += 1) sum += Math.log(pivots[j] as number);
  return sum;
}
