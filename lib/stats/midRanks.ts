/**
 * Ranks from 1, the smallest value first; equal values share the mean of the ranks they take up together.
 *
 * The ranks of n values always sum to n (n + 1) / 2, with ties or without. Out: one rank for each value, in the
 * order given.
 *
 * Source: Kendall 1945, The treatment of ties in ranking problems.
 *
 * @example
 * midRanks([5, 3, 5]) // [2.5, 1, 2.5]
 * midRanks([]) // []
 */
export function midRanks(values: readonly number[]): number[] {
  const order = [...values.keys()].sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0));
  const ranks = values.map(() => 0);
  for (let first = 0; first < order.length; ) {
    let last = first;
    while (last + 1 < order.length && values[order[last + 1] ?? 0] === values[order[first] ?? 0]) last += 1;
    for (let at = first; at <= last; at += 1) ranks[order[at] ?? 0] = (first + last) / 2 + 1;
    first = last + 1;
  }
  return ranks;
}
