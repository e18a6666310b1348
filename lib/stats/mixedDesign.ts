import type { MixedModel } from './mixedModel';

/**
 * The design matrix T = [Z₁ … Z_K X] of a mixed model, held by column group: each observation has one entry in
 * each group, a 1 in its level's column of a factor, its value in a fixed effect's column.
 */
export type MixedDesign = {
  readonly observations: number;
  /** First column of each random factor, then of X, then the number of columns. */
  readonly starts: readonly number[];
  readonly size: number;
  readonly groups: readonly ColumnGroup[];
};

/**
 * For each observation the column it falls in, and its value there (null: always 1). A fixed effect's column is the
 * same throughout.
 */
type ColumnGroup = { readonly column: Int32Array; readonly values: readonly number[] | null };

/**
 * The columns of a mixed model: the levels of each factor in turn, then one for each fixed effect.
 *
 * @example Two levels and a mean: columns 0 and 1, then 2.
 * const factor = labelledFactor('group', ['a', 'a', 'b'])
 * const design = mixedDesign({ response: [1, 2, 4], fixed: [intercept(3)], factors: [factor] })
 * [design.observations, design.starts, design.size] // [3, [0, 2, 3], 3]
 */
export function mixedDesign(model: MixedModel): MixedDesign {
  const observations = model.response.length;
  const starts = [0];
  for (const { levelCount } of model.factors) starts.push((starts[starts.length - 1] ?? 0) + levelCount);
  const firstFixed = starts[starts.length - 1] ?? 0;
  const size = firstFixed + model.fixed.length;
  starts.push(size);
  const random = model.factors.map(({ levels }, k) => {
    const column = new Int32Array(observations);
    for (let i = 0; i < observations; i += 1) column[i] = starts[k] + levels[i];
    return { column, values: null };
  });
  const fixed = model.fixed.map((values, at) => ({
    column: new Int32Array(observations).fill(firstFixed + at),
    values,
  }));
  return { observations, starts, size, groups: [...random, ...fixed] };
}

/**
 * TᵀT, dense and row-major, size × size: counts of observations that levels share, sums and products of the fixed
 * columns.
 *
 * @example
 * const factor = labelledFactor('group', ['a', 'a', 'b'])
 * const design = mixedDesign({ response: [1, 2, 4], fixed: [intercept(3)], factors: [factor] })
 * gramMatrix(design) // [2, 0, 2, 0, 1, 1, 2, 1, 3]
 */
export function gramMatrix({ observations, size, groups }: MixedDesign): Float64Array {
  const gram = new Float64Array(size * size);
  groups.forEach((a, at) => {
    for (const b of groups.slice(at)) addBlock({ gram, size, observations }, [a, b]);
  });
  for (let i = 0; i < size; i += 1) for (let j = 0; j < i; j += 1) gram[i * size + j] = gram[j * size + i];
  return gram;
}

type Gram = { readonly gram: Float64Array; readonly size: number; readonly observations: number };

function addBlock({ gram, size, observations }: Gram, [a, b]: readonly [ColumnGroup, ColumnGroup]): void {
  const plain = a.values === null && b.values === null;
  for (let i = 0; i < observations; i += 1) {
    const at = a.column[i] * size + b.column[i];
    const product = plain ? 1 : (a.values?.[i] ?? 1) * (b.values?.[i] ?? 1);
    gram[at] = gram[at] + product;
  }
}

/**
 * Tᵀw, size numbers: for a factor the sum of w over each level, for a fixed effect its products with w.
 *
 * @example
 * const factor = labelledFactor('group', ['a', 'a', 'b'])
 * designSums(mixedDesign({ response: [1, 2, 4], fixed: [intercept(3)], factors: [factor] }), [1, 2, 4]) // [3, 4, 7]
 */
export function designSums({ size, groups }: MixedDesign, w: ArrayLike<number>): Float64Array {
  const sums = new Float64Array(size);
  for (const { column, values } of groups) {
    if (values === null) {
      for (let i = 0; i < w.length; i += 1) sums[column[i]] = sums[column[i]] + w[i];
      continue;
    }
    let sum = 0;
    for (let i = 0; i < w.length; i += 1) sum += values[i] * w[i];
    sums[column[0]] = sum;
  }
  return sums;
}

/**
 * w − T c, one number for each observation: what the coefficients c leave of w.
 *
 * @example Mean 2, group effects −1 and 1.
 * const factor = labelledFactor('group', ['a', 'a', 'b'])
 * const design = mixedDesign({ response: [1, 2, 4], fixed: [intercept(3)], factors: [factor] })
 * designResidual(design, [1, 2, 4], Float64Array.of(-1, 1, 2)) // [0, 1, 1]
 */
export function designResidual({ groups }: MixedDesign, w: ArrayLike<number>, c: Float64Array): Float64Array {
  const left = Float64Array.from(w);
  for (const { column, values } of groups) {
    if (values === null) {
      for (let i = 0; i < left.length; i += 1) left[i] = left[i] - c[column[i]];
      continue;
    }
    const slope = c[column[0]];
    for (let i = 0; i < left.length; i += 1) left[i] = left[i] - values[i] * slope;
  }
  return left;
}
