import type { SeededRandom } from '#lib/stats/seededRandom';
import type { FoldedDraws } from './lookedDraws';
import type { LikingPlaces } from '../merit/likingPlaces';
import { answerTables, type ForecastDraws, type ForecastPair } from './lookForecast';
import { greedyBatch, type GreedyBatch } from './lookGains';
import type { LookSettings } from './lookSettings';
import type { PanelDesign } from '../merit/panelDesign';

/** Two candidates by position among the design's puppies, and the seats that would answer. */
export type SeatedPair = { readonly first: number; readonly second: number; readonly seats: readonly string[] };

export type BatchQuestion = {
  readonly design: PanelDesign;
  readonly folded: FoldedDraws;
  /** Merits of the slot's purpose, draw by draw. */
  readonly merits: Float64Array;
  readonly places: LikingPlaces;
  readonly looks: LookSettings;
  /** Eligible puppies by position. */
  readonly eligible: readonly number[];
  readonly pairs: readonly SeatedPair[];
  readonly most: number;
  /** Joint draws the expectation runs over, at most. */
  readonly draws: number;
};

/** The pairs worth most together, and the gain in P(right pick) to expect of them: `greedyBatch` on the posterior of scores and looks. */
export function bestBatch(question: BatchQuestion, random: SeededRandom): GreedyBatch {
  const draws = equalDraws(question, random);
  const tables = question.pairs.map(({ first, second, seats }) => {
    const likings = seats.map((seat) => ({
      first: question.places.placeOf(seat, first),
      second: question.places.placeOf(seat, second),
    }));
    const pair: ForecastPair = { first, second, likings };
    return answerTables(pair, draws, question.looks);
  });
  return greedyBatch(
    { tables, best: bestInDraws(draws, question.eligible), puppies: question.eligible.length, most: question.most },
    random,
  );
}

/** All pairs of the candidates, in the design's order. */
export function pairsAmong(
  candidates: readonly string[],
  { puppies }: PanelDesign,
): { readonly first: number; readonly second: number }[] {
  const places = puppies.flatMap((puppy, at) => (candidates.includes(puppy) ? [at] : []));
  return places.flatMap((first, at) => places.slice(at + 1).map((second) => ({ first, second })));
}

/** Draws taken in proportion to their weights (systematic resampling), so that the rest may treat them alike. */
function equalDraws({ folded, merits, design, places, draws }: BatchQuestion, random: SeededRandom): ForecastDraws {
  const [puppies, width] = [design.puppies.length, places.likings.length];
  const count = Math.min(draws, folded.draws.count);
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
  return { count: at, unit: design.unit, puppies, width, ...taken };
}

function bestInDraws({ merits, puppies, count }: ForecastDraws, eligible: readonly number[]): Int32Array {
  return Int32Array.from({ length: count }, (_, draw) => {
    const values = eligible.map((puppy) => merits[draw * puppies + puppy]);
    return values.indexOf(Math.max(...values));
  });
}
