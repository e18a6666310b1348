import type { MeritPriors, PanelSpread } from './meritPriors';
import type { PanelDesign } from './panelDesign';

/** The standard deviations of the model, in units u. */
export type StandardDeviations = {
  readonly puppy: number;
  readonly puppyCriterion: number;
  readonly evaluator: number;
  readonly evaluatorCriterion: number;
  readonly puppyDegree: number;
  readonly evaluatorLean: number;
  readonly degreeNoise: number;
  /** By seat. */
  readonly liking: readonly number[];
  readonly noise: readonly number[];
};

/** Where each log SD stands in the parameter vector θ: four or seven shared ones, then likings, then noises. */
export type VarianceLayout = {
  readonly size: number;
  readonly seats: number;
  readonly likings: number;
  readonly oneSided: boolean;
  readonly twoSided: boolean;
};

/** Below this many seats likings share one SD: two seats cannot tell whose liking it was. */
const SEATS_FOR_OWN_LIKING = 3;

export function varianceLayout(design: PanelDesign): VarianceLayout {
  const seats = design.seats.length;
  const [oneSided, twoSided] = [design.oneSided.length > 0, design.twoSided.length > 0];
  const likings = oneSided ? (seats >= SEATS_FOR_OWN_LIKING ? seats : 1) : 0;
  return { size: (oneSided ? 4 : 0) + (twoSided ? 3 : 0) + likings + seats, seats, likings, oneSided, twoSided };
}

/** θ → SDs. A family the panel has no criterion for keeps its prior's middle, which nothing then reads. */
export function standardDeviations(layout: VarianceLayout, priors: MeritPriors, theta: Float64Array): StandardDeviations {
  let at = 0;
  const next = () => Math.exp(theta[at++] as number);
  const [puppy, puppyCriterion, evaluator, evaluatorCriterion] = layout.oneSided
    ? [next(), next(), next(), next()]
    : [priors.puppy, priors.puppyCriterion, priors.evaluator, priors.evaluatorCriterion];
  const [puppyDegree, evaluatorLean, degreeNoise] = layout.twoSided
    ? [next(), next(), next()]
    : [priors.puppyDegree, priors.evaluatorLean, 1];
  const likings = Array.from({ length: layout.likings }, next);
  const noise = Array.from({ length: layout.seats }, next);
  const liking = noise.map((_, seat) => likings[seat] ?? likings[0] ?? priors.liking.median);
  return { puppy, puppyCriterion, evaluator, evaluatorCriterion, puppyDegree, evaluatorLean, degreeNoise, liking, noise };
}

/** Log density of the prior of θ up to a constant; half-normal SDs carry the Jacobian of the logarithm. */
export function logPrior(layout: VarianceLayout, priors: MeritPriors, theta: Float64Array): number {
  const shared = sharedScales(layout, priors);
  let sum = 0;
  let at = 0;
  for (const scale of shared) {
    const value = theta[at++] as number;
    if (scale.kind === 'halfNormal') sum += value - Math.exp(2 * value) / (2 * scale.scale * scale.scale);
    else sum -= (value / scale.scale) ** 2 / 2;
  }
  sum += logExchangeable(theta.subarray(at, at + layout.likings), priors.liking);
  return sum + logExchangeable(theta.subarray(at + layout.likings), priors.noise);
}

/** A point to start the search for the mode from: the middle of every prior. */
export function priorMiddle(layout: VarianceLayout, priors: MeritPriors): Float64Array {
  return Float64Array.from([
    ...sharedScales(layout, priors).map((scale) => (scale.kind === 'halfNormal' ? Math.log(scale.scale * 0.6) : 0)),
    ...Array.from({ length: layout.likings }, () => Math.log(priors.liking.median)),
    ...Array.from({ length: layout.seats }, () => Math.log(priors.noise.median)),
  ]);
}

type SharedScale = { readonly kind: 'halfNormal' | 'normal'; readonly scale: number };

function sharedScales(layout: VarianceLayout, priors: MeritPriors): SharedScale[] {
  const half = (scale: number): SharedScale => ({ kind: 'halfNormal', scale });
  const oneSided = [priors.puppy, priors.puppyCriterion, priors.evaluator, priors.evaluatorCriterion].map(half);
  const twoSided = [half(priors.puppyDegree), half(priors.evaluatorLean), { kind: 'normal' as const, scale: priors.degreeNoise }];
  return [...(layout.oneSided ? oneSided : []), ...(layout.twoSided ? twoSided : [])];
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
