import type { SeededRandom } from '#lib/stats/seededRandom';
import type { AnswerTables } from './lookForecast';

/** A batch as it grows: chosen pairs in the order of choice, and the gain in P(right pick) expected of all up to each. */
export type GreedyBatch = readonly { readonly pair: number; readonly gain: number }[];

export type GainQuestion = {
  /** By pair, what each of its seats would answer in each draw. */
  readonly tables: readonly AnswerTables[];
  /** Who is the best eligible puppy in each draw, and how many may be. */
  readonly best: Int32Array;
  readonly puppies: number;
  readonly most: number;
};

/** Imagined truths over which the expectation runs: more steadies the choice and costs time in proportion. */
const WORLDS = 200;
/** Gains that differ by less are alike. */
const ALIKE = 1e-6;

/**
 * Picks pairs one after the other, each time the one that adds most to E max_a P(a best | all answers of the batch): the expected value of sample
 * information for the utility "right or not". The truth is taken to be one draw after another, answers follow from it by chance, and all
 * draws are weighed by them. Seats that may not answer a pair have no table there, so a pair gains only by those who will answer it.
 * The same imagined truths and chances serve every pair, so that pairs differ by what they tell and not by luck. Pairs that gain alike, as
 * where no single one could change the pick, go by E Σ_a P(a best)², how far they part the candidates.
 */
export function greedyBatch(question: GainQuestion, random: SeededRandom): GreedyBatch {
  const { best, tables, most } = question;
  const draws = best.length;
  const truths = Int32Array.from({ length: WORLDS }, (_, world) =>
    Math.floor(((world + random.uniform()) / WORLDS) * draws),
  );
  const likelihoods = tables.map((seats) =>
    likelihoodsByWorld(
      seats,
      seats.map((table) => Uint8Array.from(truths, (truth) => answerOf(table, truth, random.uniform()))),
    ),
  );
  const weights = Array.from({ length: WORLDS }, () => new Float64Array(draws).fill(1));
  const left = new Set(tables.flatMap((seats, pair) => (seats.length > 0 ? [pair] : [])));
  const now = bestNow(question);
  const chosen: { pair: number; gain: number }[] = [];
  while (chosen.length < most && left.size > 0) {
    const trials = [...left].map((pair) => ({
      pair,
      ...expectation(question, { weights, likelihoods: likelihoods[pair] ?? [], now }),
    }));
    const [next] = trials.sort((a, b) =>
      Math.abs(b.gain - a.gain) > ALIKE ? b.gain - a.gain : b.parting - a.parting || a.pair - b.pair,
    );
    if (!next) break;
    chosen.push({ pair: next.pair, gain: next.gain });
    left.delete(next.pair);
    weights.forEach((list, world) => {
      const told = likelihoods[next.pair]?.[world];
      for (let draw = 0; draw < draws; draw += 1) list[draw] = list[draw] * (told?.[draw] ?? 1);
    });
  }
  return chosen;
}

function answerOf(table: Float64Array, draw: number, chance: number): number {
  const first = table[3 * draw];
  return chance < first ? 0 : chance < first + table[3 * draw + 1] ? 1 : 2;
}

/** For each imagined truth, how likely its answers are in every draw; truths with the same answers share one list. */
function likelihoodsByWorld(seats: AnswerTables, answers: readonly Uint8Array[]): Float64Array[] {
  const known = new Map<string, Float64Array>();
  const [first] = seats;
  return Array.from({ length: WORLDS }, (_, world) => {
    const given = answers.map((list) => list[world]);
    const key = given.join('');
    const product = known.get(key) ?? new Float64Array((first?.length ?? 0) / 3).fill(1);
    if (!known.has(key)) seats.forEach((table, seat) => multiply(product, table, given[seat]));
    known.set(key, product);
    return product;
  });
}

function multiply(product: Float64Array, table: Float64Array, answer: number): void {
  for (let draw = 0; draw < product.length; draw += 1) product[draw] = product[draw] * table[3 * draw + answer];
}

function bestNow({ best, puppies }: GainQuestion): number {
  const counts = new Float64Array(puppies);
  for (const puppy of best) counts[puppy] = counts[puppy] + 1;
  return counts.indexOf(Math.max(...counts));
}

type Trial = {
  readonly weights: readonly Float64Array[];
  readonly likelihoods: readonly Float64Array[];
  readonly now: number;
};

/**
 * What to expect after one more pair. The gain is the mean of max_a P(a) − P(today's pick): since P(today's pick) stays what it is on the
 * average, subtracting it takes away most of the chance in the imagined truths, and leaves a gain that is never negative.
 */
function expectation(
  { best, puppies }: GainQuestion,
  { weights, likelihoods, now }: Trial,
): { gain: number; parting: number } {
  const counts = new Float64Array(puppies);
  let [gain, parting] = [0, 0];
  weights.forEach((list, world) => {
    const told = likelihoods[world];
    counts.fill(0);
    for (let draw = 0; draw < list.length; draw += 1) {
      const puppy = best[draw];
      counts[puppy] = counts[puppy] + list[draw] * told[draw];
    }
    const total = counts.reduce((sum, count) => sum + count, 0);
    gain += (Math.max(...counts) - counts[now]) / total;
    parting += counts.reduce((sum, count) => sum + (count / total) ** 2, 0);
  });
  return { gain: gain / weights.length, parting: parting / weights.length };
}
