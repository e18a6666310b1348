import type { MixedModel } from './mixedModel';

/** The design matrix T = [Z X] of a mixed model, held by column group: each observation has one entry in each group. */
export type MixedDesign = {
  readonly observations: number;
  /** First column of each random factor, then of X, then the number of columns. */
  readonly starts: readonly number[];
  readonly size: number;
  readonly groups: readonly ColumnGroup[];
};

/** For each observation the column it falls in, and its value there (null: always 1). */
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
    for (let i = 0; i < observations; i += 1) column[i] = (starts[k] as number) + (levels[i] as number);
    return { column, values: null };
  });
  const fixed = model.fixed.map((values, at) => ({ column: new Int32Array(observations).fill(firstFixed + at), values }));
  return { observations, starts, size, groups: [...random, ...fixed] };
}

/** TᵀT, dense row-major. */
export function gramMatrix({ observations, size, groups }: MixedDesign): Float64Array {
  const gram = new Float64Array(size * size);
  for (const a of groups) {
    for (const b of groups) {
      for (let i = 0; i < observations; i += 1) {
        const at = (a.column[i] as number) * size + (b.column[i] as number);
        gram[at] = (gram[at] as number) + valueAt(a, i) * valueAt(b, i);
      }
    }
  }
  return gram;
}

/** Tᵀ w. */
export function designSums({ size, groups }: MixedDesign, w: ArrayLike<number>): Float64Array {
  const sums = new Float64Array(size);
  for (const group of groups) {
    for (let i = 0; i < w.length; i += 1) {
      const at = group.column[i] as number;
      sums[at] = (sums[at] as number) + valueAt(group, i) * (w[i] as number);
    }
  }
  return sums;
}

/** w - T c. */
export function designResidual({ groups }: MixedDesign, w: ArrayLike<number>, c: Float64Array): Float64Array {
  const left = Float64Array.from(w);
  for (const group of groups) {
    for (let i = 0; i < left.length; i += 1) {
      left[i] = (left[i] as number) - valueAt(group, i) * (c[group.column[i] as number] as number);
    }
  }
  return left;
}

const valueAt = (group: ColumnGroup, i: number): number => (group.values === null ? 1 : (group.values[i] as number));
