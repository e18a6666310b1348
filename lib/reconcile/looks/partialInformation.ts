import { normalQuantile } from '#lib/stats/normalDistribution';
import type { WeightedMerits } from '../merit/rankChances';

/** A choice among eligible puppies (by position), with the joint draws it is made on. */
export type Choice = WeightedMerits & { readonly eligible: readonly number[] };

/** Equally probable values of the resolved quantity the expectation runs over, as standard normal scores. */
const CORNERS = Float64Array.from({ length: 9 }, (_, at) => normalQuantile((at + 0.5) / 9));

/**
 * Expected gain in P(right pick) from learning one quantity exactly: E max_a P(a best | x) − max_a P(a best), the expected value of partial
 * perfect information for the utility "right or not". Each merit is regressed on the quantity's draws (Strong and Oakley 2013, Medical
 * Decision Making 33: 755–766, with a straight line for the regression and a normal x, as fits a joint posterior that is nearly normal); at
 * nine equally probable values of x every draw is moved to x along its line and the best counted. Sampling error: about 0.01 where
 * two puppies are level, less elsewhere; never negative.
 * @param score the quantity in each draw, from `standardScores`; null when it does not vary and so teaches nothing.
 */
export function quantityGain(choice: Choice, score: Float64Array | null): number {
  const { merits, weights, puppies, eligible } = choice;
  const count = eligible.length;
  if (count < 2 || score === null) return 0;
  const slopes = slopesOn(score, choice);
  const counts = Array.from(CORNERS, () => new Float64Array(count));
  const rest = new Float64Array(count);
  for (let draw = 0; draw < weights.length; draw += 1) {
    const x = score[draw];
    for (let at = 0; at < count; at += 1) {
      rest[at] = merits[draw * puppies + eligible[at]] - slopes[at] * x;
    }
    const low = bestAt(rest, slopes, CORNERS[0]);
    const high = bestAt(rest, slopes, CORNERS[CORNERS.length - 1]);
    for (let corner = 0; corner < CORNERS.length; corner += 1) {
      // Merits are lines in x: who is best at both ends is best between.
      const best = low === high ? low : bestAt(rest, slopes, CORNERS[corner]);
      const row = counts[corner];
      row[best] = row[best] + weights[draw];
    }
  }
  return groupGain(counts);
}

function bestAt(rest: Float64Array, slopes: Float64Array, x: number): number {
  let best = 0;
  let most = rest[0] + slopes[0] * x;
  for (let at = 1; at < rest.length; at += 1) {
    const merit = rest[at] + slopes[at] * x;
    if (merit > most) {
      most = merit;
      best = at;
    }
  }
  return best;
}

/** Weighted draws of a quantity with their mean taken off, in SDs; null when they do not vary. */
export function standardScores(values: Float64Array, weights: Float64Array): Float64Array | null {
  let [total, sum] = [0, 0];
  for (let draw = 0; draw < values.length; draw += 1) {
    total += weights[draw];
    sum += weights[draw] * values[draw];
  }
  const mean = sum / total;
  let squares = 0;
  for (let draw = 0; draw < values.length; draw += 1) squares += weights[draw] * (values[draw] - mean) ** 2;
  const sd = Math.sqrt(squares / total);
  return sd > 1e-9 ? values.map((value) => (value - mean) / sd) : null;
}

/**
 * Expected gain from learning which of the candidates is the best of them: the draws grouped by that answer. The others stay
 * as uncertain as they are.
 */
export function bestOfGain(choice: Choice, candidates: readonly number[]): number {
  const { merits, weights, puppies, eligible } = choice;
  const groups = candidates.map(() => new Float64Array(eligible.length));
  const bestOf = (list: readonly number[], start: number) => {
    let best = 0;
    for (let at = 1; at < list.length; at += 1) {
      if (merits[start + list[at]] > merits[start + list[best]]) best = at;
    }
    return best;
  };
  for (let draw = 0; draw < weights.length; draw += 1) {
    const row = groups[bestOf(candidates, draw * puppies)];
    const best = bestOf(eligible, draw * puppies);
    if (row) row[best] = row[best] + weights[draw];
  }
  return groupGain(groups);
}

/** Σ over groups of the largest count, less the largest count over all, as a share of everything counted. */
function groupGain(groups: readonly Float64Array[]): number {
  const [first] = groups;
  if (!first) return 0;
  const all = first.map((_, at) => groups.reduce((sum, group) => sum + group[at], 0));
  const total = all.reduce((sum, count) => sum + count, 0);
  const informed = groups.reduce((sum, group) => sum + Math.max(...group), 0);
  return total > 0 ? Math.max(0, informed - Math.max(...all)) / total : 0;
}

/** Weighted least squares slope of each eligible puppy's merit on standard scores. */
function slopesOn(score: Float64Array, { merits, weights, puppies, eligible }: Choice): Float64Array {
  const slopes = new Float64Array(eligible.length);
  let total = 0;
  for (let draw = 0; draw < score.length; draw += 1) {
    total += weights[draw];
    const pull = weights[draw] * score[draw];
    for (let at = 0; at < slopes.length; at += 1) {
      slopes[at] = slopes[at] + pull * merits[draw * puppies + eligible[at]];
    }
  }
  return slopes.map((slope) => slope / total);
}
