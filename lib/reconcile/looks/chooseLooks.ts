import { createSeededRandom, seedFromNumbers, type SeededRandom } from '#lib/stats/seededRandom';
import { bestBatch, pairsAmong, type SeatedPair } from './bestBatch';
import { createLikingPlaces } from '../merit/likingPlaces';
import { lookArrangement, type Arrangement, type LookPair, type ShownLook } from './lookArrangement';
import { lookedSlots } from './lookedSlots';
import type { ReconcileQuestion } from '../panel/panel';
import { reconcileSettings, type ReconcileSettings } from '../merit/reconcile';
import type { Undefined } from '../merit/reconciliation';
import { scorePosterior, type ScorePosterior } from '../merit/scorePosterior';

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
type ProposedLook = LookPair &
  Arrangement & {
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
export function chooseLooks(
  question: ReconcileQuestion,
  ask: LooksAsk,
  with_: Partial<LooksSettings> = {},
): LookBatch | Undefined {
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
  const pairs = pairsAmong(
    result.candidates.map(({ puppy }) => puppy),
    scored.design,
  ).map((pair): SeatedPair => ({ ...pair, seats: answerers(pair, ask.seats, puppies) }));
  if (pairs.every((pair) => pair.seats.length === 0)) return { undefined: 'no seat may answer' };
  const random = createSeededRandom(seedFromNumbers([scored.design.seed, at, question.looks.length, ask.shown.length]));
  const eligible = result.chances.map(({ puppy }) => puppies.indexOf(puppy));
  const found = bestBatch(
    {
      design: scored.design,
      folded,
      merits,
      places,
      looks: settings.looks,
      eligible,
      pairs,
      most: Math.min(ask.most, MOST_PAIRS),
      draws: MOST_DRAWS,
    },
    random,
  );
  const chosen = shownOrder(
    found.flatMap(({ pair }) => pairs[pair] ?? []),
    random,
  );
  const named = chosen.map((pair) => ({ first: puppies[pair.first] ?? '', second: puppies[pair.second] ?? '' }));
  const arrangement = lookArrangement(
    named,
    { medium: ask.medium, shown: ask.shown, seats: chosen.map(({ seats }) => seats) },
    random,
  );
  return {
    looks: named.flatMap((pair, index) => {
      const arranged = arrangement[index];
      return arranged ? [{ ...pair, ...arranged, seats: chosen[index]?.seats ?? [] }] : [];
    }),
    now: result.chances[0]?.probability ?? 0,
    gain: found.at(-1)?.gain ?? 0,
  };
}

function answerers(
  pair: { readonly first: number; readonly second: number },
  seats: readonly LookSeat[],
  puppies: readonly string[],
): string[] {
  const shown = [puppies[pair.first], puppies[pair.second]];
  return seats.filter(({ except }) => !except.some((puppy) => shown.includes(puppy))).map(({ evaluator }) => evaluator);
}

/** Among the orders in which the fewest puppies come up twice in a row, a seeded draw: the order says nothing of which pair matters most. */
function shownOrder(chosen: readonly SeatedPair[], random: SeededRandom): SeatedPair[] {
  const meets = (a: SeatedPair, b: SeatedPair) =>
    [a.first, a.second].some((puppy) => puppy === b.first || puppy === b.second);
  const cost = (order: readonly SeatedPair[]) =>
    order.filter((pair, at) => at > 0 && meets(order[at - 1] ?? pair, pair)).length;
  const orders = permutations(chosen);
  const least = Math.min(...orders.map(cost));
  const good = orders.filter((order) => cost(order) === least);
  return good[random.below(good.length)] ?? [...chosen];
}

function permutations<T>(list: readonly T[]): T[][] {
  if (list.length < 2) return [[...list]];
  return list.flatMap((one, at) => permutations(list.filter((_, other) => other !== at)).map((rest) => [one, ...rest]));
}
