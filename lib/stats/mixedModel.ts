/**
 * One random factor of a linear mixed model
 *   y = X β + Σ_k Z_k u_k + e,   u_k ~ N(0, σ_k² I),   e ~ N(0, σ² I), all independent.
 * Z_k has one 1 in each row: the factor says which level each observation has. Crossed and nested designs are
 * written alike. Source of the model: Searle, Casella & McCulloch 1992, Variance Components; Henderson 1975.
 */
export type RandomFactor = {
  readonly name: string;
  /** Level of each observation, 0 … levelCount - 1. */
  readonly levels: ArrayLike<number>;
  readonly levelCount: number;
};

/** A mixed model with its data: n responses, p fixed columns of n numbers, factors of n levels each. */
export type MixedModel = {
  /** y, in any unit; that of the effects, and squared that of the variances. */
  readonly response: readonly number[];
  /** Columns of X, the column of ones included when there is an intercept. */
  readonly fixed: readonly (readonly number[])[];
  readonly factors: readonly RandomFactor[];
};

/**
 * A factor from one label for each observation; levels are numbered in the order in which labels first appear.
 *
 * Out: `levels` counts from 0; `labels[level]` is the label as text, so that 1 and '1' are one level.
 *
 * @example
 * const { levels, levelCount, labels } = labelledFactor('rater', ['b', 'a', 'b'])
 * [levels, levelCount, labels] // [[0, 1, 0], 2, ["b", "a"]]
 */
export function labelledFactor(
  name: string,
  labels: readonly (string | number)[],
): RandomFactor & { readonly labels: readonly string[] } {
  const numbers = new Map<string, number>();
  const levels = new Int32Array(labels.length);
  labels.forEach((label, observation) => {
    const key = String(label);
    const level = numbers.get(key) ?? numbers.size;
    numbers.set(key, level);
    levels[observation] = level;
  });
  return { name, levels, levelCount: numbers.size, labels: [...numbers.keys()] };
}

/**
 * The interaction of two factors: one level for each combination that occurs, none for those that do not.
 *
 * @example Two by two, of which three combinations occur.
 * const puppy = labelledFactor('puppy', ['x', 'x', 'y'])
 * const rater = labelledFactor('rater', ['a', 'b', 'a'])
 * interactionFactor('both', [puppy, rater]) // { "name": "both", "levels": [0, 1, 2], "levelCount": 3 }
 */
export function interactionFactor(name: string, pair: readonly [RandomFactor, RandomFactor]): RandomFactor {
  const [first, second] = pair;
  const labels = Array.from(
    { length: first.levels.length },
    (_, i) => (first.levels[i] ?? 0) * second.levelCount + (second.levels[i] ?? 0),
  );
  const { levels, levelCount } = labelledFactor(name, labels);
  return { name, levels, levelCount };
}

/**
 * A column of ones: the fixed effect whose β is the mean.
 *
 * @example
 * intercept(3) // [1, 1, 1]
 */
export function intercept(observations: number): number[] {
  return new Array<number>(observations).fill(1);
}
