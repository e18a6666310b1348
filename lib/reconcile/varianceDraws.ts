import type { SeededRandom } from '#lib/stats/seededRandom';
import { conditionalPosterior, type ConditionalPosterior } from './conditionalPosterior';
import type { MeritPriors } from './meritPriors';
import type { PanelDesign } from './panelDesign';
import { modeShape, posteriorMode, type LogDensity } from './posteriorMode';
import { drawStretched, fittedStudent, logStretchedDensity, stretchedAround, type StretchedStudent } from './stretchedStudent';
import { logPrior, priorMiddle, roughVariances, standardDeviations, varianceLayout } from './varianceParameters';

/** Values of the SDs with their share of the posterior (shares sum to 1), and the effective number of them. */
export type VarianceDraws = {
  readonly points: readonly { readonly posterior: ConditionalPosterior; readonly share: number }[];
  readonly effective: number;
};

/** Step of the second differences: about half a posterior SD. */
const SHAPE_STEP = 0.2;
/** Enough effective points: beyond this the spread between SDs adds nothing visible to a chance in 100. */
const ENOUGH_EFFECTIVE = 80;
const MOST_ROUNDS = 4;
/** A point whose prior is this far below is not worth evaluating. */
const HOPELESS = -300;

type Evaluated = { readonly point: Float64Array; readonly posterior: ConditionalPosterior | null; readonly logDensity: number };

/**
 * Integrates the SDs by importance sampling: a split Student around the mode, then, should too few points carry the weight, Students
 * fitted to the points so far (adaptive multiple importance sampling, Cornuet et al. 2012). `count` points a round.
 */
export function varianceDraws(
  design: PanelDesign,
  priors: MeritPriors,
  sampling: { readonly random: SeededRandom; readonly count: number },
): VarianceDraws {
  const layout = varianceLayout(design, priors);
  const posteriorOf = conditionalPosterior(design, priors);
  const evaluate = (point: Float64Array): Evaluated => {
    const prior = logPrior(layout, priors, point);
    if (!(prior > HOPELESS)) return { point, posterior: null, logDensity: -Infinity };
    const posterior = posteriorOf(standardDeviations(layout, priors, point));
    return { point, posterior, logDensity: posterior.logLikelihood + prior };
  };
  if (layout.size === 0) return weighed([evaluate(new Float64Array(0))], [0]);
  const density: LogDensity = (point) => Math.max(evaluate(point).logDensity, -1e300);
  const mode = posteriorMode(density, priorMiddle(layout, priors), roughVariances(layout, priors, design.scoresBySeat));
  return importanceRounds(stretchedAround(density, mode, modeShape(density, mode, SHAPE_STEP)), { evaluate, ...sampling });
}

function importanceRounds(
  first: StretchedStudent,
  sampling: { readonly evaluate: (point: Float64Array) => Evaluated; readonly random: SeededRandom; readonly count: number },
): VarianceDraws {
  const proposals = [first];
  const evaluated: Evaluated[] = [];
  for (;;) {
    const latest = proposals.at(-1) ?? first;
    for (let draw = 0; draw < sampling.count; draw += 1) evaluated.push(sampling.evaluate(drawStretched(latest, sampling.random)));
    const logWeights = evaluated.map(({ point, logDensity }) => logDensity - logMixture(proposals, point));
    const draws = weighed(evaluated, logWeights);
    if (draws.effective >= ENOUGH_EFFECTIVE || proposals.length >= MOST_ROUNDS) return draws;
    const next = fittedStudent(evaluated.map(({ point }) => point), tempered(logWeights, ENOUGH_EFFECTIVE / 2));
    if (!next) return draws;
    proposals.push(next);
  }
}

function weighed(evaluated: readonly Evaluated[], logWeights: readonly number[]): VarianceDraws {
  const shares = normalised(logWeights);
  const points = evaluated.flatMap(({ posterior }, at) => (posterior ? [{ posterior, share: shares[at] ?? 0 }] : []));
  return { points, effective: effectiveNumber(shares) };
}

function logMixture(proposals: readonly StretchedStudent[], point: Float64Array): number {
  const logs = proposals.map((proposal) => logStretchedDensity(proposal, point));
  const highest = Math.max(...logs);
  return highest + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - highest), 0) / proposals.length);
}

/** Weights raised to the largest power at which `wanted` of them still count, so that a fit does not hang on one point. */
function tempered(logWeights: readonly number[], wanted: number): number[] {
  for (let power = 1; ; power *= 0.8) {
    const shares = normalised(logWeights.map((log) => power * log));
    if (effectiveNumber(shares) >= wanted || power < 0.01) return shares;
  }
}

function normalised(logWeights: readonly number[]): number[] {
  const highest = logWeights.reduce((most, log) => Math.max(most, log), -Infinity);
  const weights = logWeights.map((log) => Math.exp(log - highest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/** 1 / Σ share²: how many equal weights these are worth (Kish). */
function effectiveNumber(shares: readonly number[]): number {
  return 1 / shares.reduce((sum, share) => sum + share * share, 0);
}
