/** Ranks from 1, smallest first; equal values share the mean of their ranks. Worked example: [5, 3, 5] has ranks 2.5, 1, 2.5. */
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
