/**
 * Heights for labels that should stand at `wanted` and at least `gap` apart, in the order of `wanted`, kept within
 * `least` and `most` where there is room: pushed down in reading order, then up again from the bottom.
 */
export function spreadLabels(wanted: readonly number[], { gap, least, most }: { readonly gap: number; readonly least: number; readonly most: number }): number[] {
  const order = wanted.map((height, index) => ({ height, index })).sort((a, b) => a.height - b.height);
  let above = least - gap;
  for (const label of order) {
    label.height = Math.max(label.height, above + gap);
    above = label.height;
  }
  let below = most + gap;
  for (const label of order.toReversed()) {
    label.height = Math.min(label.height, below - gap);
    below = label.height;
  }
  const heights = [...wanted];
  for (const { height, index } of order) heights[index] = height;
  return heights;
}
