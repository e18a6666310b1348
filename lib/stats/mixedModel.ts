/**
 * A linear mixed model y = X β + Σ Z_k u_k + e with independent random effects: u_k ~ N(0, σ_k² I), e ~ N(0, σ² I).
 * Crossed and nested designs alike: every random factor just says which level each observation has.
 */
export type RandomFactor = {
  readonly name: string;
  /** Level of each observation, 0 … levelCount - 1. */
  readonly levels: ArrayLike<number>;
  readonly levelCount: number;
};

export type MixedModel = {
  readonly response: readonly number[];
  /** Columns of X, the column of ones included when there is an intercept. */
  readonly fixed: readonly (readonly number[])[];
  readonly factors: readonly RandomFactor[];
};

/** A factor from one label per observation; levels are numbered in the order of first appearance. */
export function labelledFactor(name: string, labels: readonly (string | number)[]): RandomFactor & { readonly labels: readonly string[] } {
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

/** The interaction of two factors: one level for every combination that occurs. */
export function interactionFactor(name: string, pair: readonly [RandomFactor, RandomFactor]): RandomFactor {
  const [first, second] = pair;
  const labels = Array.from({ length: first.levels.length }, (_, i) => (first.levels[i] ?? 0) * second.levelCount + (second.levels[i] ?? 0));
  const { levels, levelCount } = labelledFactor(name, labels);
  return { name, levels, levelCount };
}

/** A column of ones. */
export function intercept(observations: number): number[] {
  return new Array<number>(observations).fill(1);
}
