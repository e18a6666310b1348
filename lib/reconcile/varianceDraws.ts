import type { SeededRandom } from '#lib/stats/seededRandom';
import { conditionalPosterior, type ConditionalPosterior } from './conditionalPosterior';
import type { MeritPriors } from './meritPriors';
import type { PanelDesign } from './panelDesign';
import { modeShape, posteriorMode } from './posteriorMode';
import { propose, splitProposal } from './splitProposal';
import { logPrior, priorMiddle, standardDeviations, varianceLayout } from './varianceParameters';

/** Values of the SDs with their share of the posterior (shares sum to 1), and the effective number of them. */
export type VarianceDraws = {
  readonly points: readonly { readonly posterior: ConditionalPosterior; readonly share: number }[];
  readonly effective: number;
};

const SHAPE_STEP = 0.2;

/** Integrates the log SDs: mode, split Student proposal around it, importance weights. `count` is the number of evaluations. */
export function varianceDraws(
  design: PanelDesign,
  priors: MeritPriors,
  sampling: { readonly random: SeededRandom; readonly count: number },
): VarianceDraws {
  const layout = varianceLayout(design);
  const evaluate = (theta: Float64Array) => {
    const posterior = conditionalPosterior(design, priors, standardDeviations(layout, priors, theta));
    return { posterior, logDensity: posterior.logLikelihood + logPrior(layout, priors, theta) };
  };
  const density = (theta: Float64Array) => evaluate(theta).logDensity;
  const mode = posteriorMode(density, priorMiddle(layout, priors));
  const proposal = splitProposal(density, mode, modeShape(density, mode, SHAPE_STEP));
  const proposed = Array.from({ length: layout.size === 0 ? 1 : sampling.count }, () => {
    const { point, logDensity } = propose(proposal, sampling.random);
    const { posterior, logDensity: target } = evaluate(point);
    return { posterior, logWeight: target - logDensity };
  });
  const highest = Math.max(...proposed.map(({ logWeight }) => logWeight));
  const weights = proposed.map(({ logWeight }) => Math.exp(logWeight - highest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const points = proposed.map(({ posterior }, at) => ({ posterior, share: (weights[at] ?? 0) / total }));
  return { points, effective: 1 / points.reduce((sum, { share }) => sum + share * share, 0) };
}
