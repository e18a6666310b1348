/** Merits of `puppies` puppies in draws with weights that need not sum to 1: [i × puppies + p]. */
export type WeightedMerits = {
  readonly merits: Float64Array;
  readonly weights: Float64Array;
  readonly puppies: number;
};

/** Row p: chance of rank 1, 2, … for puppy p. Puppies level in a draw share the ranks they hold between them. */
export function rankChances({ merits, weights, puppies }: WeightedMerits): Float64Array[] {
  const chances = Array.from({ length: puppies }, () => new Float64Array(puppies));
  for (let draw = 0; draw < weights.length; draw += 1) {
    const start = draw * puppies;
    for (let puppy = 0; puppy < puppies; puppy += 1) {
      const own = merits[start + puppy];
      let [above, level] = [0, 0];
      for (let other = 0; other < puppies; other += 1) {
        const theirs = merits[start + other];
        if (theirs > own) above += 1;
        else if (theirs === own) level += 1;
      }
      const row = chances[puppy];
      for (let rank = above; rank < above + level; rank += 1) row[rank] = row[rank] + weights[draw] / level;
    }
  }
  return normalised(chances, weights);
}

/** Row a, column b: chance that a stands above b; level draws count half. */
export function betterChances({ merits, weights, puppies }: WeightedMerits): Float64Array[] {
  const chances = Array.from({ length: puppies }, () => new Float64Array(puppies));
  for (let draw = 0; draw < weights.length; draw += 1) {
    const start = draw * puppies;
    for (let puppy = 0; puppy < puppies; puppy += 1) {
      const row = chances[puppy];
      const own = merits[start + puppy];
      for (let other = 0; other < puppies; other += 1) {
        const gap = own - merits[start + other];
        const win = gap > 0 ? 1 : gap === 0 ? 0.5 : 0;
        row[other] = row[other] + win * weights[draw];
      }
    }
  }
  return normalised(chances, weights);
}

/** Chance of each of `eligible` (positions of puppies) to be the best of them; level draws are shared. */
export function bestChances({ merits, weights, puppies }: WeightedMerits, eligible: readonly number[]): number[] {
  const chances = eligible.map(() => 0);
  for (let draw = 0; draw < weights.length; draw += 1) {
    const values = eligible.map((puppy) => merits[draw * puppies + puppy]);
    const best = Math.max(...values);
    const level = values.filter((value) => value === best).length;
    values.forEach((value, at) => {
      if (value === best) chances[at] = (chances[at] ?? 0) + weights[draw] / level;
    });
  }
  const total = weightTotal(weights);
  return chances.map((chance) => chance / total);
}

function normalised(chances: Float64Array[], weights: Float64Array): Float64Array[] {
  const total = weightTotal(weights);
  return chances.map((row) => row.map((chance) => chance / total));
}

function weightTotal(weights: Float64Array): number {
  return weights.reduce((sum, weight) => sum + weight, 0);
}
