import { normalCdf, normalQuantile } from '#lib/stats/normalDistribution';
import { PUPPY_POWER, type MeritPriors, type PanelSpread } from './meritPriors';
import type { PanelDesign } from './panelDesign';

/** The standard deviations of the model, in units u. */
export type StandardDeviations = {
  readonly puppy: number;
  readonly puppyCriterion: number;
  readonly evaluator: number;
  readonly evaluatorCriterion: number;
  /** Of folded criteria: what πκ and βκ are of the others, and how many times as noisy a score is. */
  readonly puppyFolded: number;
  readonly evaluatorFolded: number;
  readonly foldedNoise: number;
  /** True when one SD stands for the liking of every seat. */
  readonly likingsAlike: boolean;
  /** By seat; the noise is that before rounding. */
  readonly liking: readonly number[];
  readonly noise: readonly number[];
  /** Share of its noise that a seat taken to repeat another has from that other; 0 where none is. */
  readonly noiseRepeated: number;
};

/**
 * The SDs as coordinates x in which their posterior is nearly normal: for a half-normal SD, or a power of one, the normal score of its prior
 * (so that its prior is standard normal and an SD near zero has no long tail), for the others the log SD.
 * Order: the puppies' and the evaluators' SDs, two more of one-sided criteria, three of folded ones (each only if the panel has such), likings,
 * noises, and last, where seats repeat one another, the normal score of the share of noise repeated, any share being as likely before the scores as another.
 */
export type VarianceLayout = {
  readonly size: number;
  readonly seats: number;
  readonly likings: number;
  readonly noises: number;
  readonly oneSided: boolean;
  readonly folded: boolean;
  readonly tied: boolean;
};

/** Below this many seats likings share one SD: two seats cannot tell whose liking it was. */
const SEATS_FOR_OWN_LIKING = 3;

export function varianceLayout(design: PanelDesign, priors: MeritPriors): VarianceLayout {
  const seats = design.seats.length;
  const [oneSided, folded] = [design.oneSided.length > 0, design.folded.length > 0];
  const ownLikings = seats >= SEATS_FOR_OWN_LIKING && !priors.evaluatorsAlike;
  const likings = seats === 0 ? 0 : ownLikings ? seats : 1;
  const noises = priors.evaluatorsAlike ? Math.min(1, seats) : seats;
  const shared = (seats > 0 ? 2 : 0) + (oneSided ? 2 : 0) + (folded ? 3 : 0);
  const tied = design.repeats.some((share) => share > 0);
  return { size: shared + likings + noises + (tied ? 1 : 0), seats, likings, noises, oneSided, folded, tied };
}

/** x → SDs. A family the panel has no criterion for keeps its prior's middle, which nothing then reads. */
export function standardDeviations(layout: VarianceLayout, priors: MeritPriors, x: Float64Array): StandardDeviations {
  let at = 0;
  const half = (scale: number) => floored(scale * halfNormalOfScore(x[at++]));
  const steep = (scale: number) => floored(scale * halfNormalOfScore(x[at++]) ** PUPPY_POWER);
  const log = () => floored(Math.exp(x[at++]));
  const [puppy, evaluator] =
    layout.seats > 0 ? [steep(priors.puppy), half(priors.evaluator)] : [priors.puppy, priors.evaluator];
  const [puppyCriterion, evaluatorCriterion] = layout.oneSided
    ? [half(priors.puppyCriterion), half(priors.evaluatorCriterion)]
    : [priors.puppyCriterion, priors.evaluatorCriterion];
  const [puppyFolded, evaluatorFolded, foldedNoise] = layout.folded
    ? [half(priors.puppyFolded), half(priors.evaluatorFolded), priors.foldedNoise.median * log()]
    : [priors.puppyFolded, priors.evaluatorFolded, priors.foldedNoise.median];
  const likings = Array.from({ length: layout.likings }, log);
  const noises = Array.from({ length: layout.noises }, log);
  const bySeat = (list: readonly number[]) =>
    Array.from({ length: layout.seats }, (_, seat) => list[list.length > 1 ? seat : 0] ?? 1);
  const [liking, noise] = [bySeat(likings), bySeat(noises)];
  const likingsAlike = layout.likings <= 1;
  const noiseRepeated = layout.tied ? normalCdf(x[at]) : 0;
  return {
    noiseRepeated,
    likingsAlike,
    puppy,
    puppyCriterion,
    evaluator,
    evaluatorCriterion,
    puppyFolded,
    evaluatorFolded,
    foldedNoise,
    liking,
    noise,
  };
}

/** Log density of the prior of x up to a constant. */
export function logPrior(layout: VarianceLayout, priors: MeritPriors, x: Float64Array): number {
  let sum = 0;
  let at = 0;
  for (const scale of sharedScales(layout, priors)) sum -= (x[at++] / scale) ** 2 / 2;
  sum += logExchangeable(x.subarray(at, at + layout.likings), priors.liking);
  at += layout.likings;
  if (layout.tied) sum -= x[at + layout.noises] ** 2 / 2;
  return sum + logExchangeable(x.subarray(at, at + layout.noises), priors.noise);
}

/** A point to start the search for the mode from: the middle of every prior. */
export function priorMiddle(layout: VarianceLayout, priors: MeritPriors): Float64Array {
  return Float64Array.from([
    ...sharedScales(layout, priors).map(() => 0),
    ...Array.from({ length: layout.likings }, () => Math.log(priors.liking.median)),
    ...Array.from({ length: layout.noises }, () => Math.log(priors.noise.median)),
    ...(layout.tied ? [0] : []),
  ]);
}

/** Rough posterior variance of each coordinate: prior's for the shared ones, that of a log SD from n scores (1/2n) for the noises. */
export function roughVariances(
  layout: VarianceLayout,
  priors: MeritPriors,
  scoresBySeat: readonly number[],
): Float64Array {
  return Float64Array.from([
    ...sharedScales(layout, priors).map((scale) => 0.2 * scale * scale),
    ...Array.from({ length: layout.likings }, () => 0.1),
    ...Array.from(
      { length: layout.noises },
      (_, seat) => 1 / (1 / priors.noise.seat ** 2 + 1.5 * (scoresBySeat[seat] ?? 0)),
    ),
    ...(layout.tied ? [0.1] : []),
  ]);
}

/** Prior SDs of the shared coordinates, in their order. */
function sharedScales(layout: VarianceLayout, priors: MeritPriors): number[] {
  return [
    ...(layout.seats > 0 ? [1, 1] : []),
    ...(layout.oneSided ? [1, 1] : []),
    ...(layout.folded ? [1, 1, priors.foldedNoise.sd] : []),
  ];
}

/** The standard half-normal value whose place in its distribution is that of `score` in the standard normal. */
function halfNormalOfScore(score: number): number {
  return -normalQuantile(normalCdf(-score) / 2);
}

/** Keeps an SD from vanishing altogether: a hundredth of a step is nothing in scores, and keeps every matrix well conditioned. */
export function floored(sd: number): number {
  return Math.hypot(sd, 0.01);
}

/** Normal with covariance seat² I + panel² 11', inverted by Sherman and Morrison. */
function logExchangeable(values: Float64Array, spread: PanelSpread): number {
  const [own, common] = [spread.seat ** 2, spread.panel ** 2];
  const middle = Math.log(spread.median);
  let [sum, squares] = [0, 0];
  for (const value of values) {
    sum += value - middle;
    squares += (value - middle) ** 2;
  }
  return -(squares - (common / (own + values.length * common)) * sum * sum) / (2 * own);
}
