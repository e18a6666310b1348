import { answerChance } from './lookLikelihood';
import type { LookSettings } from './lookSettings';

/** One pair and who would answer it, by place: of the puppies in the merits, of each seat's two likings in the draws. */
export type ForecastPair = {
  readonly first: number;
  readonly second: number;
  readonly likings: readonly { readonly first: number; readonly second: number }[];
};

/** Equally likely joint draws, in scale points. */
export type ForecastDraws = {
  readonly count: number;
  readonly unit: number;
  /** Merit of puppy p in draw i at [i × puppies + p]. */
  readonly merits: Float64Array;
  readonly puppies: number;
  /** Liking k in draw i at [i × width + k]. */
  readonly lookLikings: Float64Array;
  readonly width: number;
};

/** Chance of each answer in each draw: answers "first", "second" and "tie" of draw i at [3i], [3i + 1], [3i + 2], one table a seat. */
export type AnswerTables = readonly Float64Array[];

/** What every answering seat would say to one pair, draw by draw: its look reads merit plus its own liking, as in `lookLikelihood`. */
export function answerTables(pair: ForecastPair, draws: ForecastDraws, settings: LookSettings): AnswerTables {
  const { merits, puppies, lookLikings, width, unit } = draws;
  return pair.likings.map((liking) => {
    const table = new Float64Array(3 * draws.count);
    for (let draw = 0; draw < draws.count; draw += 1) {
      const liked = lookLikings[draw * width + liking.first] - lookLikings[draw * width + liking.second];
      const gap =
        merits[draw * puppies + pair.first] - merits[draw * puppies + pair.second] + settings.carryOver * liked;
      const [one, other] = [answerChance('first', gap / unit, settings), answerChance('second', gap / unit, settings)];
      table[3 * draw] = one;
      table[3 * draw + 1] = other;
      table[3 * draw + 2] = Math.max(0, 1 - one - other);
    }
    return table;
  });
}
