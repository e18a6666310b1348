/** Counts of one pair of items. */
export type PairCounts = {
  readonly first: string;
  readonly second: string;
  readonly firstWins: number;
  readonly secondWins: number;
  readonly ties: number;
  /** 1 when the first item had the advantage of place, -1 the second, 0 neither. Left out: 0. */
  readonly place?: number;
};

/**
 * Names of the items that occur, ascending by code unit, each once.
 *
 * @example
 * comparedItems([{ first: 'b', second: 'a', firstWins: 1, secondWins: 0, ties: 0 }]) // ["a", "b"]
 */
export function comparedItems(pairs: readonly PairCounts[]): string[] {
  return [...new Set(pairs.flatMap(({ first, second }) => [first, second]))].sort((a, b) =>
    a === b ? 0 : a < b ? -1 : 1,
  );
}

/**
 * The same counts in one order and orientation, so that the last digit does not depend on how they were listed
 * (ST2).
 *
 * @example
 * const turned = orderedPairs([{ first: 'b', second: 'a', firstWins: 3, secondWins: 1, ties: 2, place: 1 }])
 * const { first, firstWins, secondWins, ties, place } = turned[0]
 * [first, firstWins, secondWins, ties, place] // ["a", 1, 3, 2, -1]
 */
export function orderedPairs(pairs: readonly PairCounts[]): PairCounts[] {
  const key = (pair: PairCounts): (string | number)[] => [
    pair.first,
    pair.second,
    pair.place ?? 0,
    pair.firstWins,
    pair.secondWins,
    pair.ties,
  ];
  const compare = (a: readonly (string | number)[], b: readonly (string | number)[]): number => {
    const at = a.findIndex((value, k) => value !== b[k]);
    return at < 0 ? 0 : (a[at] ?? 0) < (b[at] ?? 0) ? -1 : 1;
  };
  return pairs.map(oriented).sort((a, b) => compare(key(a), key(b)));
}

function oriented(pair: PairCounts): PairCounts {
  if (pair.first <= pair.second) return pair;
  return {
    first: pair.second,
    second: pair.first,
    firstWins: pair.secondWins,
    secondWins: pair.firstWins,
    ties: pair.ties,
    place: -(pair.place ?? 0),
  };
}

/**
 * Why abilities have no finite maximum likelihood estimate, or null where they have one.
 *
 * Ford's condition: every item can be reached from every other along wins, a tie leading both ways. 'items not
 * connected' when even losses do not join them, 'an item always or never wins' when only one direction is missing
 * (of one item or a group).
 *
 * Source: Ford 1957, Solution of a ranking problem from binary comparisons.
 *
 * @example A circle of wins will do; a ladder will not.
 * const win = (first, second) => ({ first, second, firstWins: 1, secondWins: 0, ties: 0 })
 * comparisonFault([win('a', 'b'), win('b', 'c'), win('c', 'a')]) // null
 * comparisonFault([win('a', 'b'), win('b', 'c')]) // "an item always or never wins"
 * comparisonFault([win('a', 'b'), win('c', 'd')]) // "items not connected"
 */
export function comparisonFault(
  pairs: readonly PairCounts[],
): 'items not connected' | 'an item always or never wins' | null {
  const items = comparedItems(pairs);
  const played = pairs.filter(({ firstWins, secondWins, ties }) => firstWins + secondWins + ties > 0);
  const wins = played.flatMap(({ first, second, firstWins, secondWins, ties }) => [
    ...(firstWins + ties > 0 ? [[first, second] as const] : []),
    ...(secondWins + ties > 0 ? [[second, first] as const] : []),
  ]);
  const losses = wins.map(([winner, loser]) => [loser, winner] as const);
  const start = items[0];
  if (start === undefined) return null;
  if (reached(start, [...wins, ...losses]) < items.length) return 'items not connected';
  return reached(start, wins) < items.length || reached(start, losses) < items.length
    ? 'an item always or never wins'
    : null;
}

function reached(start: string, arcs: readonly (readonly [string, string])[]): number {
  const seen = new Set([start]);
  for (let grew = true; grew; ) {
    grew = false;
    for (const [from, to] of arcs) {
      if (!seen.has(from) || seen.has(to)) continue;
      seen.add(to);
      grew = true;
    }
  }
  return seen.size;
}
