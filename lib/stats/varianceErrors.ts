import { choleskyFactor, choleskyInverse } from './cholesky';
import type { MixedModelFit } from './fitMixedModel';
import { inverseColumn } from './penalisedSystem';

export type VarianceErrors = {
  /** Per factor; null at the boundary, where no standard error exists. */
  readonly factors: readonly (number | null)[];
  readonly residual: number;
};

/**
 * Standard errors of the variances: square roots of the diagonal of the inverse expected (Fisher) information ½ tr(P V_k P V_l).
 * Source: Searle, Casella & McCulloch 1992, section 6.6.
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
          const value = (i === j ? 1 : 0) - (column[j]) / unit;
          own[a * m + b] = (own[a * m + b] ?? 0) + value * value;
        }
      });
      trace[a] = (trace[a] ?? 0) + (column[i]) / ((fit.factors[k]?.variance ?? 0) / fit.residual);
    }
  });
  return { own, trace };
}
