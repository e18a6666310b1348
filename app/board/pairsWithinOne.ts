/** A share of pairs of scores in words: "67 of 100 pairs". None and all are said as such, and only then. */
export function pairsWithinOne(share: number): string {
  if (share === 0) return 'no pair';
  if (share === 1) return 'all pairs';
  return `${Math.min(99, Math.max(1, Math.round(share * 100)))} of 100 pairs`;
}
