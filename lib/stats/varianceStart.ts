import type { PenalisedSystem } from './penalisedSystem';
import { choleskyFactor, choleskySolve } from './cholesky';
import type { MixedModel } from './mixedModel';

/** First estimates of the variances, in squared units of the response. */
export type VarianceStart = {
  /**
   * Per factor: unbiased quadratic estimate (may be negative), or null where it cannot be told from the residual and
   * earlier factors.
   */
  readonly variances: readonly (number | null)[];
  /** σ², which may come out next to 0 too. */
  readonly residual: number;
};

/**
 * Quadratic unbiased estimates of the variances by MINQUE(0), without iteration.
 *
 * With P₀ = I − X(XᵀX)⁻¹Xᵀ, V_k = Z_k Z_kᵀ and V_0 = I, they solve Σ_l tr(P₀ V_k P₀ V_l) σ_l² = yᵀP₀ V_k P₀ y, k =
 * 0 … K. On balanced data these are the analysis-of-variance estimates. A factor whose P₀ V_k P₀ is a combination
 * of the residual's and of earlier factors' (relative distance below 1e−8) cannot be told from them and is left
 * out (null).
 *
 * Null as a whole when the fixed effects are not estimable or leave no observation over.
 * Source: Rao 1971, Estimation of variance and covariance components: MINQUE theory; Hartley, Rao & LaMotte 1978.
 *
 * @example Groups (1, 3), (5, 7), (9, 11): (32 − 2) / 2, and 2. A second factor that repeats the first is left out.
 * const group = labelledFactor('group', ['a', 'a', 'b', 'b', 'c', 'c'])
 * const model = { response: [1, 3, 5, 7, 9, 11], fixed: [intercept(6)], factors: [group, { ...group, name: 'again' }] }
 * varianceStart(createPenalisedSystem(model), model) // { "variances": [15, null], "residual": 2 }
 */
export function varianceStart(system: PenalisedSystem, model: MixedModel): VarianceStart | null {
  const projected = projectOffFixed(system, model);
  if (projected === null) return null;
  const { starts } = system.design;
  const count = model.factors.length;
  const moments = new Float64Array((count + 1) * (count + 1));
  const unprojected = new Float64Array(count + 1).fill(1);
  const forms = new Float64Array(count + 1);
  moments[0] = model.response.length - model.fixed.length;
  forms[0] = projected.residualSquares;
  for (let k = 0; k < count; k += 1) {
    let trace = 0;
    for (let i = starts[k]; i < starts[k + 1]; i += 1) {
      trace += projected.gram[i * projected.size + i];
      unprojected[k + 1] = unprojected[k + 1] + system.gram[i * system.design.size + i] ** 2;
      forms[k + 1] = forms[k + 1] + projected.sums[i] ** 2;
    }
    moments[k + 1] = trace;
    moments[(k + 1) * (count + 1)] = trace;
    for (let l = 0; l <= k; l += 1) {
      const sum = blockSquares(projected, { rows: [starts[k], starts[k + 1]], columns: [starts[l], starts[l + 1]] });
      moments[(k + 1) * (count + 1) + l + 1] = sum;
      moments[(l + 1) * (count + 1) + k + 1] = sum;
    }
  }
  return solveIndependent({ moments, forms, unprojected });
}

type Projected = {
  readonly size: number;
  readonly gram: Float64Array;
  readonly sums: Float64Array;
  readonly residualSquares: number;
};

/** ZᵀP₀Z, ZᵀP₀y and yᵀP₀y. */
function projectOffFixed({ design, gram }: PenalisedSystem, model: MixedModel): Projected | null {
  const { size: full, starts } = design;
  const size = starts[model.factors.length];
  const p = model.fixed.length;
  if (model.response.length <= p) return null;
  const cross = new Float64Array(p * p);
  for (let i = 0; i < p; i += 1) for (let j = 0; j < p; j += 1) cross[i * p + j] = gram[(size + i) * full + size + j];
  if (!choleskyFactor(cross, p)) return null;
  const fit = new Float64Array(p);
  model.fixed.forEach((column, i) => {
    for (let at = 0; at < column.length; at += 1) fit[i] = fit[i] + column[at] * model.response[at];
  });
  choleskySolve(cross, p, fit);
  const left = model.response.map((y, at) => model.fixed.reduce((sum, column, i) => sum - column[at] * fit[i], y));
  const sums = new Float64Array(size);
  for (let k = 0; k < model.factors.length; k += 1) {
    const column = design.groups[k].column;
    for (let at = 0; at < left.length; at += 1) sums[column[at]] = sums[column[at]] + left[at];
  }
  const projected = new Float64Array(size * size);
  const solved = new Float64Array(p);
  for (let i = 0; i < size; i += 1) {
    for (let c = 0; c < p; c += 1) solved[c] = gram[i * full + size + c];
    choleskySolve(cross, p, solved);
    for (let j = 0; j < size; j += 1) {
      let value = gram[i * full + j];
      for (let c = 0; c < p; c += 1) value -= solved[c] * gram[j * full + size + c];
      projected[i * size + j] = value;
    }
  }
  return { size, gram: projected, sums, residualSquares: left.reduce((sum, value) => sum + value * value, 0) };
}

function blockSquares({ gram, size }: Projected, block: { rows: [number, number]; columns: [number, number] }): number {
  let sum = 0;
  for (let i = block.rows[0]; i < block.rows[1]; i += 1) {
    for (let j = block.columns[0]; j < block.columns[1]; j += 1) sum += gram[i * size + j] ** 2;
  }
  return sum;
}

/** Takes the equations in order, leaving out each that depends on those taken before it. */
function solveIndependent({
  moments,
  forms,
  unprojected,
}: Record<'moments' | 'forms' | 'unprojected', Float64Array>): VarianceStart | null {
  const n = forms.length;
  const taken: number[] = [];
  for (let k = 0; k < n; k += 1) {
    const own = moments[k * n + k];
    // A factor inside the fixed effects (one level, say) has only rounding noise left.
    if (own > 1e-10 * unprojected[k] && conditionalShare(moments, { n, taken, k }) > 1e-8) taken.push(k);
  }
  if (taken[0] !== 0) return null;
  const m = taken.length;
  const a = Float64Array.from({ length: m * m }, (_, at) => moments[taken[Math.floor(at / m)] * n + taken[at % m]]);
  const b = Float64Array.from(taken, (k) => forms[k]);
  if (!choleskyFactor(a, m)) return null;
  choleskySolve(a, m, b);
  const variances = Array.from({ length: n - 1 }, (_, k) => {
    const at = taken.indexOf(k + 1);
    return at < 0 ? null : b[at];
  });
  return { variances, residual: b[0] };
}

/** Share of equation k's own moment that the equations taken do not explain. */
function conditionalShare(
  moments: Float64Array,
  { n, taken, k }: { n: number; taken: readonly number[]; k: number },
): number {
  const m = taken.length;
  const own = moments[k * n + k];
  if (m === 0) return 1;
  const a = Float64Array.from({ length: m * m }, (_, at) => moments[taken[Math.floor(at / m)] * n + taken[at % m]]);
  const b = Float64Array.from(taken, (l) => moments[k * n + l]);
  const solved = Float64Array.from(b);
  if (!choleskyFactor(a, m)) return 0;
  choleskySolve(a, m, solved);
  return (own - solved.reduce((sum, value, at) => sum + value * b[at], 0)) / own;
}
