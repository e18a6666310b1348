/** Two raters' scores of the same units, in the same order. */
export type PairedScores = { readonly first: readonly number[]; readonly second: readonly number[] };

/**
 * Product-moment correlation; null with fewer than two pairs or when one side does not vary.
 * Source: Pearson 1895. Worked example: (1, 2, 3) and (2, 4, 6) give 1.
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
