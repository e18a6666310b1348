import type { SeededRandom } from '#lib/stats/seededRandom';
import { conditionalPosterior, type ConditionalPosterior } from './conditionalPosterior';
import type { MeritPriors } from './meritPriors';
import type { PanelDesign } from './panelDesign';
import { modeShape, posteriorMode } from './posteriorMode';
import {
  drawStretched,
  fittedStudent,
  type LogDensity,
  logStretchedDensity,
  stretchedAround,
  type StretchedStudent,
} from './stretchedStudent';
import { logPrior, priorMiddle, roughVariances, standardDeviations, varianceLayout } from './varianceParameters';

/** Values of the SDs with their share of the posterior (shares sum to 1), and the effective number of them. */
export type VarianceDraws = {
  readonly points: readonly { readonly posterior: ConditionalPosterior; readonly share: number }[];
  readonly effective: number;
};

/** Step of the second differences: about half a posterior SD. */
const SHAPE_STEP = 0.2;
/** Enough effective points, as a share of those of a round: at 240 points the spread between SDs then adds nothing visible to a chance in 100. */
const ENOUGH_SHARE = 0.5;
const MOST_ROUNDS = 4;
/** A point whose prior is this far below is not worth evaluating. */
const HOPELESS = -300;
/** Puppies as alike as peas: their SD at one in fifteen of its prior, as a normal score. */
const ALIKE = -1.5;
/** How far below the mode, in log density, such an SD still counts. */
const NEAR = 4;

type Evaluated = {
  readonly point: Float64Array;
  readonly posterior: ConditionalPosterior | null;
  readonly logDensity: number;
};

/**
 * Integrates the SDs by importance sampling: a split Student around the mode and, where the scores allow that the puppies are alike, another
 * on that ridge, which lies bent away from the mode (what differs is then likings); then, should too few points carry the weight, Students
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
  const variances = roughVariances(layout, priors, design.scoresBySeat);
  const around = (centre: Float64Array) => stretchedAround(density, centre, modeShape(density, centre, SHAPE_STEP));
  const mode = posteriorMode(density, priorMiddle(layout, priors), variances);
  // The puppies' own SD comes first; held where it is, the other SDs are the likeliest beside it.
  const alike = posteriorMode((point) => density(point.with(0, ALIKE)), mode.with(0, ALIKE), variances);
  const near = density(alike) > density(mode) - NEAR;
  return importanceRounds([mode, ...(near ? [alike] : [])].map(around), { evaluate, ...sampling });
}

/** A distribution points were drawn from, and how many. */
type Proposal = { readonly student: StretchedStudent; readonly drawn: number };

function importanceRounds(
  firsts: readonly StretchedStudent[],
  sampling: {
    readonly evaluate: (point: Float64Array) => Evaluated;
    readonly random: SeededRandom;
    readonly count: number;
  },
): VarianceDraws {
  const { count, random } = sampling;
  const enough = ENOUGH_SHARE * count;
  const proposals: Proposal[] = [];
  const evaluated: Evaluated[] = [];
  let latest = firsts;
  for (let round = 1; ; round += 1) {
    for (const student of latest) {
      const drawn = Math.ceil(count / latest.length);
      for (let draw = 0; draw < drawn; draw += 1) evaluated.push(sampling.evaluate(drawStretched(student, random)));
      proposals.push({ student, drawn });
    }
    const logWeights = evaluated.map(({ point, logDensity }) => logDensity - logMixture(proposals, point));
    const draws = weighed(evaluated, logWeights);
    if (draws.effective >= enough || round >= MOST_ROUNDS) return draws;
    const next = fittedStudent(
      evaluated.map(({ point }) => point),
      tempered(logWeights, enough / 2),
    );
    if (!next) return draws;
    latest = [next];
  }
}

function weighed(evaluated: readonly Evaluated[], logWeights: readonly number[]): VarianceDraws {
  const shares = normalised(logWeights);
  const points = evaluated.flatMap(({ posterior }, at) => (posterior ? [{ posterior, share: shares[at] ?? 0 }] : []));
  return { points, effective: effectiveNumber(shares) };
}

/** Log density of the mixture, up to a constant: each proposal counts by its draws (the balance heuristic, Veach and Guibas 1995). */
function logMixture(proposals: readonly Proposal[], point: Float64Array): number {
  const logs = proposals.map(({ student, drawn }) => Math.log(drawn) + logStretchedDensity(student, point));
  const highest = Math.max(...logs);
  return highest + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - highest), 0));
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
