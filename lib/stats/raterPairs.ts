import type { PairedScores } from './pearson';
import { widthOf, type ScoreTable } from './scoreTable';

/** The scores two raters gave to the units both scored (pairwise deletion). */
export type RaterPair = PairedScores & { readonly raters: readonly [number, number] };

/** Every pair of columns, first before second. */
export function raterPairs(table: ScoreTable): RaterPair[] {
  const width = widthOf(table);
  const pairs: RaterPair[] = [];
  for (let a = 0; a < width; a += 1) for (let b = a + 1; b < width; b += 1) pairs.push(raterPair(table, [a, b]));
  return pairs;
}

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
