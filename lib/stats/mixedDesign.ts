import type { MixedModel } from './mixedModel';

/** The design matrix T = [Z X] of a mixed model, held by column group: each observation has one entry in each group. */
export type MixedDesign = {
  readonly observations: number;
  /** First column of each random factor, then of X, then the number of columns. */
  readonly starts: readonly number[];
  readonly size: number;
  readonly groups: readonly ColumnGroup[];
};

/** For each observation the column it falls in, and its value there (null: always 1). A fixed effect's column is the same throughout. */
type ColumnGroup = { readonly column: Int32Array; readonly values: readonly number[] | null };

export function mixedDesign(model: MixedModel): MixedDesign {
  const observations = model.response.length;
  const starts = [0];
  for (const { levelCount } of model.factors) starts.push((starts[starts.length - 1] ?? 0) + levelCount);
  const firstFixed = starts[starts.length - 1] ?? 0;
  const size = firstFixed + model.fixed.length;
  starts.push(size);
  const random = model.factors.map(({ levels }, k) => {
    const column = new Int32Array(observations);
    for (let i = 0; i < observations; i += 1) column[i] = (starts[k]) + (levels[i]);
    return { column, values: null };
  });
  const fixed = model.fixed.map((values, at) => ({ column: new Int32Array(observations).fill(firstFixed + at), values }));
  return { observations, starts, size, groups: [...random, ...fixed] };
}

/** TᵀT, dense row-major. */
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
    const at = (a.column[i]) * size + (b.column[i]);
    const product = plain ? 1 : (a.values?.[i] ?? 1) * (b.values?.[i] ?? 1);
    gram[at] = (gram[at]) + product;
  }
}

/** Tᵀ w. */
export function designSums({ size, groups }: MixedDesign, w: ArrayLike<number>): Float64Array {
  const sums = new Float64Array(size);
  for (const { column, values } of groups) {
    if (values === null) {
      for (let i = 0; i < w.length; i += 1) sums[column[i]] = (sums[column[i]]) + (w[i]);
      continue;
    }
    let sum = 0;
    for (let i = 0; i < w.length; i += 1) sum += (values[i]) * (w[i]);
    sums[column[0]] = sum;
  }
  return sums;
}

/** w - T c. */
export function designResidual({ groups }: MixedDesign, w: ArrayLike<number>, c: Float64Array): Float64Array {
  const left = Float64Array.from(w);
  for (const { column, values } of groups) {
    if (values === null) {
      for (let i = 0; i < left.length; i += 1) left[i] = (left[i]) - (c[column[i]]);
      continue;
    }
    const slope = c[column[0]];
    for (let i = 0; i < left.length; i += 1) left[i] = (left[i]) - (values[i]) * slope;
  }
  return left;
}
