import { choleskyFactor, choleskyInverse } from './cholesky';
import type { MixedModelFit } from './fitMixedModel';
import { inverseColumn } from './penalisedSystem';

/** Standard errors of a fit's variances, in squared units of the response, in the order of its factors. */
export type VarianceErrors = {
  /** Per factor; null at the boundary, where no standard error exists. */
  readonly factors: readonly (number | null)[];
  /** That of σ². */
  readonly residual: number;
};

/**
 * Large-sample standard errors of the variances of a fit.
 *
 * Information ℐ_kl = ½ tr(P V_k P V_l), with V = Σ σ_k² V_k + σ² I, V_k = Z_k Z_kᵀ, and P = V⁻¹ −
 * V⁻¹X(XᵀV⁻¹X)⁻¹XᵀV⁻¹, over the variances above 0 and σ²; the errors are the square roots of the diagonal of ℐ⁻¹.
 * Rough for few levels: the distribution of a variance is far from normal there.
 *
 * Source: Searle, Casella & McCulloch 1992, section 6.6.
 *
 * @example Balanced one-way: Var(σ̂²) = 2σ⁴/3, and with MSA = 32 on 2 and MSE = 2 on 3: (2·32²/2 + 2·2²/3) / 4.
 * const factor = labelledFactor('group', ['a', 'a', 'b', 'b', 'c', 'c'])
 * const fit = fitMixedModel({ response: [1, 3, 5, 7, 9, 11], fixed: [intercept(6)], factors: [factor] })
 * varianceErrors(fit).residual // 1.6330
 * varianceErrors(fit).factors // [16.0208]
 */
export function varianceErrors(fit: MixedModelFit): VarianceErrors {
  const free = [...fit.factors.keys()].filter((k) => (fit.factors[k]?.variance ?? 0) > 0);
  const m = free.length;
  const blocks = scaledBlocks(fit, free);
  const information = new Float64Array((m + 1) * (m + 1));
  const { starts, observations } = fit.system.design;
  const width = (k: number): number => (starts[k + 1] ?? 0) - (starts[k] ?? 0);
  // With W = Z Λ and Q = σ² P: Wᵀ Q W = I - B, so tr(P V_k P V_l) = |(I - B)_kl|² / (σ_k² σ_l²), and Q² = Q - Q W Wᵀ Q gives the rest.
  let rest = observations - width(fit.factors.length);
  const traces = free.map((k, a) => width(k) - (blocks.trace[a] ?? 0));
  free.forEach((k, a) => {
    const own = fit.factors[k]?.variance ?? 0;
    let explained = 0;
    free.forEach((l, b) => {
      const squares = blocks.own[a * m + b] ?? 0;
      information[a * (m + 1) + b] = squares / (2 * own * (fit.factors[l]?.variance ?? 0));
      explained += squares;
    });
    const mixed = ((traces[a] ?? 0) - explained) / (2 * own * fit.residual);
    information[a * (m + 1) + m] = mixed;
    information[m * (m + 1) + a] = mixed;
    rest -= 2 * (traces[a] ?? 0) - explained;
  });
  information[m * (m + 1) + m] = rest / (2 * fit.residual ** 2);
  choleskyFactor(information, m + 1);
  const inverse = choleskyInverse(information, m + 1);
  const se = (at: number): number => Math.sqrt(inverse[at * (m + 1) + at] ?? 0);
  return { factors: fit.factors.map((_, k) => (free.includes(k) ? se(free.indexOf(k)) : null)), residual: se(m) };
}

/** Squared norms of the blocks of I - B and traces of B, with B the random part of M⁻¹ (spherical scale). */
function scaledBlocks(fit: MixedModelFit, free: readonly number[]): { own: Float64Array; trace: Float64Array } {
  const { starts } = fit.system.design;
  const m = free.length;
  const own = new Float64Array(m * m);
  const trace = new Float64Array(m);
  free.forEach((k, a) => {
    for (let i = starts[k] ?? 0; i < (starts[k + 1] ?? 0); i += 1) {
      const column = inverseColumn(fit.system, i);
      free.forEach((l, b) => {
        const unit = Math.sqrt((fit.factors[k]?.variance ?? 0) * (fit.factors[l]?.variance ?? 0)) / fit.residual;
        for (let j = starts[l] ?? 0; j < (starts[l + 1] ?? 0); j += 1) {
          const value = (i === j ? 1 : 0) - column[j] / unit;
          own[a * m + b] = (own[a * m + b] ?? 0) + value * value;
        }
      });
      trace[a] = (trace[a] ?? 0) + column[i] / ((fit.factors[k]?.variance ?? 0) / fit.residual);
    }
  });
  return { own, trace };
}
