import { createSeededRandom, seedFromNumbers, type SeededRandom } from '#lib/stats/seededRandom';
import type { FoldedDraws } from './foldLooks';
import { createLikingPlaces, type LikingPlaces } from './likingPlaces';
import { lookArrangement, type Arrangement, type LookPair, type ShownLook } from './lookArrangement';
import { lookedSlots } from './lookedSlots';
import { answerTables, type ForecastDraws, type ForecastPair } from './lookForecast';
import { greedyBatch } from './lookGains';
import type { ReconcileQuestion } from './panel';
import { reconcileSettings, type ReconcileSettings } from './reconcile';
import type { SlotResult, Undefined } from './reconciliation';
import { scorePosterior, type ScorePosterior } from './scorePosterior';

/** A seat that can look, and puppies it does not judge in this slot (its own pick, where it declared an interest). */
export type LookSeat = { readonly evaluator: string; readonly except: readonly string[] };

export type LooksAsk = {
  readonly slot: string;
  readonly medium: 'table' | 'photographs';
  /** Seats that may answer in this slot at all; one that may not is left out. */
  readonly seats: readonly LookSeat[];
  /** What was shown so far, oldest first, of whatever slot. */
  readonly shown: readonly ShownLook[];
  /** Pairs in the batch, five at most. */
  readonly most: number;
};

/** A look to open, `first` and `second` in the panel's own order of puppies. */
export type ProposedLook = LookPair & Arrangement & {
  /** Who is to answer it. */
  readonly seats: readonly string[];
};

export type LookBatch = {
  /** In the order in which they are shown. */
  readonly looks: readonly ProposedLook[];
  /** Chance that the slot's most probable puppy is the right pick, and by how much all these answers are expected to raise it. */
  readonly now: number;
  readonly gain: number;
};

export type LooksSettings = { readonly settings: ReconcileSettings; readonly scored: ScorePosterior };

/** Joint draws the expectation runs over, at most. */
const MOST_DRAWS = 1000;
/** More pairs than these in one go tire the puppies, and the second half would be better chosen from the answers of the first. */
const MOST_PAIRS = 5;

/**
 * The next batch of second looks for one close slot: up to `most` pairs of its candidates, those with the largest expected gain in P(right
 * pick) when every seat that may answer a pair does. A pair is judged by its own answerers: where a seat stands aside, it tells less.
 * Rests on revealed scores and revealed looks alone (BL8); the same data gives the same batch, sides and order (ST2).
 * @param with_ settings, and the scores' posterior where the caller has it.
 */
export function chooseLooks(question: ReconcileQuestion, ask: LooksAsk, with_: Partial<LooksSettings> = {}): LookBatch | Undefined {
  const settings = with_.settings ?? reconcileSettings;
  const scored = with_.scored ?? scorePosterior(question, settings);
  const { puppies } = scored.design;
  const places = createLikingPlaces(scored.design);
  for (const { evaluator } of ask.seats) puppies.forEach((_, puppy) => places.placeOf(evaluator, puppy));
  const { folded, byPurpose, slots } = lookedSlots(question, { scored, places }, settings);
  const at = question.slots.findIndex(({ key }) => key === ask.slot);
  const result = slots[at];
  const merits = result && byPurpose.get(result.purpose)?.merits;
  if (!result || !merits || question.slots[at]?.picked !== null) return { undefined: 'this place is not open' };
  if (!result.close) return { undefined: 'this place is not a close call' };
  const pairs = candidatePairs(result, puppies);
  const seats = pairs.map((pair) => ask.seats.filter(({ except }) => !except.includes(pair.first) && !except.includes(pair.second)).map(({ evaluator }) => evaluator));
  if (seats.every((list) => list.length === 0)) return { undefined: 'no seat may answer' };
  const random = createSeededRandom(seedFromNumbers([scored.design.seed, at, question.looks.length, ask.shown.length]));
  const found = bestPairs({ result, folded, merits, scored, places, settings, pairs, seats, most: Math.min(ask.most, MOST_PAIRS) }, random);
  const order = shownOrder(found.map(({ pair }) => pair), pairs, random);
  const chosen = order.flatMap((pair) => pairs[pair] ?? []);
  const answering = order.map((pair) => seats[pair] ?? []);
  const arrangement = lookArrangement(chosen, { medium: ask.medium, shown: ask.shown, seats: answering }, random);
  return {
    looks: chosen.flatMap((pair, index) => {
      const arranged = arrangement[index];
      return arranged ? [{ ...pair, ...arranged, seats: answering[index] ?? [] }] : [];
    }),
    now: result.chances[0]?.probability ?? 0,
    gain: found.at(-1)?.gain ?? 0,
  };
}

function candidatePairs({ candidates }: SlotResult, puppies: readonly string[]): LookPair[] {
  const keys = puppies.filter((puppy) => candidates.some((one) => one.puppy === puppy));
  return keys.flatMap((first, at) => keys.slice(at + 1).map((second) => ({ first, second })));
}

type Forecast = {
  readonly result: SlotResult;
  readonly folded: FoldedDraws;
  readonly merits: Float64Array;
  readonly scored: ScorePosterior;
  readonly places: LikingPlaces;
  readonly settings: ReconcileSettings;
  readonly pairs: readonly LookPair[];
  readonly seats: readonly (readonly string[])[];
  readonly most: number;
};

function bestPairs(of: Forecast, random: SeededRandom) {
  const { design } = of.scored;
  const draws = equalDraws(of, random);
  const position = (puppy: string) => design.puppies.indexOf(puppy);
  const tables = of.pairs.map(({ first, second }, at) => {
    const [one, other] = [position(first), position(second)];
    const likings = (of.seats[at] ?? []).map((seat) => ({ first: of.places.placeOf(seat, one), second: of.places.placeOf(seat, other) }));
    const pair: ForecastPair = { first: one, second: other, likings };
    return answerTables(pair, draws, of.settings.looks);
  });
  const eligible = of.result.chances.map(({ puppy }) => position(puppy));
  return greedyBatch({ tables, best: bestInDraws(draws, eligible), puppies: eligible.length, most: of.most }, random);
}

/** Draws taken in proportion to their weights (systematic resampling), so that the rest may treat them alike. */
function equalDraws({ folded, merits, scored, places }: Forecast, random: SeededRandom): ForecastDraws {
  const [puppies, width] = [scored.design.puppies.length, places.likings.length];
  const count = Math.min(MOST_DRAWS, folded.draws.count);
  const total = folded.weights.reduce((sum, weight) => sum + weight, 0);
  const taken = { merits: new Float64Array(count * puppies), lookLikings: new Float64Array(count * width) };
  let [passed, at] = [random.uniform(), 0];
  folded.weights.forEach((weight, row) => {
    passed += (weight / total) * count;
    for (; at + 1 <= passed && at < count; at += 1) {
      taken.merits.set(merits.subarray(row * puppies, (row + 1) * puppies), at * puppies);
      taken.lookLikings.set(folded.draws.lookLikings.subarray(row * width, (row + 1) * width), at * width);
    }
  });
  return { count: at, unit: scored.design.unit, puppies, width, ...taken };
}

function bestInDraws({ merits, puppies, count }: ForecastDraws, eligible: readonly number[]): Int32Array {
  return Int32Array.from({ length: count }, (_, draw) => {
    const values = eligible.map((puppy) => merits[draw * puppies + puppy] as number);
    return values.indexOf(Math.max(...values));
  });
}

/** Among the orders in which the fewest puppies come up twice in a row, a seeded draw: the order says nothing of which pair matters most. */
function shownOrder(chosen: readonly number[], pairs: readonly LookPair[], random: SeededRandom): number[] {
  const meets = (one: number, other: number) => {
    const [a, b] = [pairs[one], pairs[other]];
    return a && b && [a.first, a.second].some((puppy) => puppy === b.first || puppy === b.second) ? 1 : 0;
  };
  const cost = (order: readonly number[]) => order.reduce((sum, pair, at) => sum + (at > 0 ? meets(order[at - 1] ?? -1, pair) : 0), 0);
  const orders = permutations(chosen);
  const least = Math.min(...orders.map(cost));
  const good = orders.filter((order) => cost(order) === least);
  return good[random.below(good.length)] ?? [...chosen];
}

function permutations(list: readonly number[]): number[][] {
  if (list.length < 2) return [[...list]];
  return list.flatMap((one, at) => permutations(list.filter((_, other) => other !== at)).map((rest) => [one, ...rest]));
}
