/** Two raters' scores of the same units: `first[i]` and `second[i]` are of one unit. Any unit of measurement. */
export type PairedScores = { readonly first: readonly number[]; readonly second: readonly number[] };

/**
 * Product-moment correlation: how near the pairs lie to a straight line.
 *
 * r = Σ (x − x̄)(y − ȳ) / √(Σ (x − x̄)² · Σ (y − ȳ)²)
 *
 * Out: −1 … 1; level and width of either side do not matter, so that r says nothing of agreement in level.
 * Null with fewer than two pairs, or when one side does not vary.
 *
 * Source: Pearson 1895.
 *
 * @example
 * pearson({ first: [1, 2, 3], second: [2, 4, 6] }) // 1
 * pearson({ first: [1, 2, 3], second: [1, 3, 2] }) // 0.5
 * pearson({ first: [1, 2], second: [4, 4] }) // null
 */
export function pearson({ first, second }: PairedScores): number | null {
  const n = first.length;
  if (n < 2) return null;
  const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / n;
  const [a, b] = [meanOf(first), meanOf(second)];
  let xx = 0;
  let yy = 0;
  let xy = 0;
  for (let i = 0; i < n; i += 1) {
    const x = (first[i] ?? 0) - a;
    const y = (second[i] ?? 0) - b;
    xx += x * x;
    yy += y * y;
    xy += x * y;
  }
  if (new Set(first).size < 2 || new Set(second).size < 2) return null;
  return Math.max(-1, Math.min(1, xy / Math.sqrt(xx * yy)));
}
