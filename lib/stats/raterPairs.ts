import type { PairedScores } from './pearson';
import { widthOf, type ScoreTable } from './scoreTable';

/** What two raters gave to the units both scored, in the table's order; `raters` are their columns, from 0. */
export type RaterPair = PairedScores & { readonly raters: readonly [number, number] };

/**
 * Every pair of a table's columns, the first before the second: k (k − 1) / 2 of them, pairs with no unit in
 * common too.
 *
 * @example
 * raterPairs([[1, 2, 3], [4, 5, 6]]).map((pair) => pair.raters) // [[0, 1], [0, 2], [1, 2]]
 */
export function raterPairs(table: ScoreTable): RaterPair[] {
  const width = widthOf(table);
  const pairs: RaterPair[] = [];
  for (let a = 0; a < width; a += 1) for (let b = a + 1; b < width; b += 1) pairs.push(raterPair(table, [a, b]));
  return pairs;
}

/**
 * The scores of two columns over the units that have both (pairwise deletion); the rest are left out of this pair
 * only.
 *
 * @example
 * raterPair([[1, 2], [null, 3], [4, 5]], [0, 1]) // { "raters": [0, 1], "first": [1, 4], "second": [2, 5] }
 */
export function raterPair(table: ScoreTable, raters: readonly [number, number]): RaterPair {
  const first: number[] = [];
  const second: number[] = [];
  for (const row of table) {
    const x = row[raters[0]] ?? null;
    const y = row[raters[1]] ?? null;
    if (x === null || y === null) continue;
    first.push(x);
    second.push(y);
  }
  return { raters, first, second };
}
