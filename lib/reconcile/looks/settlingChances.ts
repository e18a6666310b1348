import { createSeededRandom, seedFromNumbers, type SeededRandom } from '#lib/stats/seededRandom';
import { answerTables } from './lookForecast';
import { createLikingPlaces } from '../merit/likingPlaces';
import { lookedSlots } from './lookedSlots';
import type { ReconcileQuestion } from '../panel/panel';
import { purposeWeights } from '../panel/purposeWeights';
import { bestChances } from '../merit/rankChances';
import type { ReconcileSettings } from '../merit/reconcile';
import type { SlotResult } from '../merit/reconciliation';
import type { ScorePosterior } from '../merit/scorePosterior';

/** Of one close call: in what share of the ways things may truly be it would be settled by one more of either. */
export type SettlingChances = {
  readonly slot: string;
  /** One more evaluator who scores every puppy on every criterion, as partial and as noisy as the panel's middle. */
  readonly evaluator: number;
  /** One look at the two likeliest puppies by every seat that scored. */
  readonly look: number;
  /** How many cases were drawn for either. */
  readonly cases: number;
};

/** Imagined truths: shares come out to about three in a hundred. */
const WORLDS = 200;

/**
 * A decision study for one place (criteria fixed, as merit takes them): a draw of the joint posterior plays the truth, scores or answers follow from it by chance,
 * all draws are weighed by them, and the place counts as settled when a puppy then has the chance it asks for. The new card is the sum that merit reads: x_p = m_p + λ_p + ε_p against
 * its mean over the puppies, λ the new seat's liking, ε its noise and leanings averaged over the criteria by their shares.
 */
export function settlingChances(
  question: ReconcileQuestion,
  scored: ScorePosterior,
  settings: ReconcileSettings,
): SettlingChances[] {
  const places = createLikingPlaces(scored.design);
  for (const seat of scored.design.seats) scored.design.puppies.forEach((_, puppy) => places.placeOf(seat, puppy));
  const looked = lookedSlots(question, { scored, places }, settings);
  return looked.slots.flatMap((slot, at) => {
    const asked = question.slots[at];
    const purpose = question.purposes.find(({ key }) => key === slot.purpose);
    const merits = looked.byPurpose.get(slot.purpose);
    if (!slot.close || !asked || asked.picked !== null || !purpose || !merits || slot.chances.length < 2) return [];
    const { design } = scored;
    const random = createSeededRandom(seedFromNumbers([design.seed, at, 7]));
    const eligible = slot.chances.map(({ puppy }) => design.puppies.indexOf(puppy));
    const world: World = { slot, merits, eligible, truths: truthsFrom(merits.weights, random), random };
    const draws = {
      count: merits.weights.length,
      unit: design.unit,
      merits: merits.merits,
      puppies: merits.puppies,
      lookLikings: looked.folded.draws.lookLikings,
      width: places.likings.length,
    };
    const [first = 0, second = 0] = eligible;
    const likings = design.seats.map((seat) => ({
      first: places.placeOf(seat, first),
      second: places.placeOf(seat, second),
    }));
    return [
      {
        slot: slot.key,
        cases: world.truths.length,
        evaluator: settledShare(
          world,
          cardLikelihood(world, cardVariance(scored, purposeWeights(design.criteria, purpose))),
        ),
        look: settledShare(
          world,
          answerLikelihood(world, answerTables({ first, second, likings }, draws, settings.looks)),
        ),
      },
    ];
  });
}

type World = {
  readonly slot: SlotResult;
  readonly merits: { readonly merits: Float64Array; readonly weights: Float64Array; readonly puppies: number };
  readonly eligible: readonly number[];
  readonly truths: Int32Array;
  readonly random: SeededRandom;
};

/** Log likelihoods of all draws for what follows by chance from one truth. */
type Likelihood = (truth: number) => Float64Array;

function truthsFrom(weights: Float64Array, random: SeededRandom): Int32Array {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const truths: number[] = [];
  let passed = random.uniform();
  weights.forEach((weight, draw) => {
    passed += (weight / total) * WORLDS;
    for (; truths.length + 1 <= passed && truths.length < WORLDS; ) truths.push(draw);
  });
  return Int32Array.from(truths);
}

function settledShare({ slot, merits, eligible, truths }: World, likelihood: Likelihood): number {
  let settled = 0;
  for (const truth of truths) {
    const logs = likelihood(truth);
    const most = logs.reduce((high, log) => Math.max(high, log), -Infinity);
    const weights = merits.weights.map((weight, draw) => weight * Math.exp(logs[draw] - most));
    if (Math.max(...bestChances({ ...merits, weights }, eligible)) >= slot.closeBelow) settled += 1;
  }
  return settled / Math.max(1, truths.length);
}

/** Variance of x_p − m_p of a new seat, in points²: of its liking, and of its noise averaged over the criteria. */
function cardVariance({ design, variances }: ScorePosterior, shares: Float64Array): number {
  let variance = 0;
  for (const {
    posterior: { sds },
    share,
  } of variances.points) {
    const middle = (list: readonly number[]) => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
    const [liking, noise] = [middle(sds.liking), middle(sds.noise)];
    const cells = design.criteria.reduce((sum, { twoSided }, at) => {
      const own = twoSided
        ? (noise * sds.foldedNoise) ** 2 + design.rounding.folded
        : noise ** 2 + design.rounding.oneSided;
      return sum + shares[at] ** 2 * own;
    }, 0);
    variance += share * (liking ** 2 + cells);
  }
  return variance * design.unit ** 2;
}

function cardLikelihood({ merits: { merits, weights, puppies }, random }: World, variance: number): Likelihood {
  return (truth) => {
    const seen = Float64Array.from(
      { length: puppies },
      (_, puppy) => merits[truth * puppies + puppy] + Math.sqrt(variance) * random.normal(),
    );
    const middle = seen.reduce((sum, value) => sum + value, 0) / puppies;
    return Float64Array.from(weights, (_, draw) => {
      let squares = 0;
      for (let puppy = 0; puppy < puppies; puppy += 1)
        squares += (seen[puppy] - middle - merits[draw * puppies + puppy]) ** 2;
      return -squares / (2 * variance);
    });
  };
}

function answerLikelihood({ merits: { weights }, random }: World, tables: readonly Float64Array[]): Likelihood {
  return (truth) => {
    const answers = tables.map((table) => {
      const luck = random.uniform();
      const [one, other] = [table[3 * truth], table[3 * truth + 1]];
      return luck < one ? 0 : luck < one + other ? 1 : 2;
    });
    return Float64Array.from(weights, (_, draw) =>
      tables.reduce((sum, table, at) => sum + Math.log(Math.max(1e-300, table[3 * draw + (answers[at] ?? 0)])), 0),
    );
  };
}
