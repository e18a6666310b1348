import type { Estimate } from './reconciliation';

/** Weighted draws of one quantity, summed up. */
export type DrawSummary = Estimate & { readonly halfLow: number; readonly halfHigh: number };

/**
 * Mean, SD, 90% and 50% intervals of weighted draws; weights need not sum to 1. Quantiles interpolate between the middles of the weights.
 * No draws give zeros.
 */
export function drawSummary(values: Float64Array, rawWeights: Float64Array): DrawSummary {
  const total = rawWeights.reduce((sum, weight) => sum + weight, 0);
  const weights = rawWeights.map((weight) => weight / total);
  let value = 0;
  for (let at = 0; at < values.length; at += 1) value += weights[at] * values[at];
  let variance = 0;
  for (let at = 0; at < values.length; at += 1) variance += weights[at] * (values[at] - value) ** 2;
  const [low, halfLow, halfHigh, high] = quantiles(values, weights, [0.05, 0.25, 0.75, 0.95]);
  return {
    value,
    sd: Math.sqrt(variance),
    low: low ?? 0,
    halfLow: halfLow ?? 0,
    halfHigh: halfHigh ?? 0,
    high: high ?? 0,
  };
}

/** The part of a summary that is an estimate with its 90% interval. */
export function drawEstimate(values: Float64Array, weights: Float64Array): Estimate {
  const { value, sd, low, high } = drawSummary(values, weights);
  return { value, sd, low, high };
}

/** Column `column` of a table with `width` columns. */
export function drawColumn(table: Float64Array, width: number, column: number): Float64Array {
  const values = new Float64Array(width === 0 ? 0 : table.length / width);
  for (let row = 0; row < values.length; row += 1) values[row] = table[row * width + column];
  return values;
}

function quantiles(values: Float64Array, weights: Float64Array, at: readonly number[]): number[] {
  const sorted = sortedByValue(values, weights);
  const found: number[] = [];
  let passed = 0;
  let before = { place: 0, value: sorted.values[0] ?? 0 };
  for (let index = 0; index < values.length && found.length < at.length; index += 1) {
    const weight = sorted.weights[index];
    const here = { place: passed + weight / 2, value: sorted.values[index] };
    while (found.length < at.length && here.place >= at[found.length]) {
      const gap = here.place - before.place;
      const part = gap > 0 && passed > 0 ? (at[found.length] - before.place) / gap : 1;
      found.push(before.value + part * (here.value - before.value));
    }
    passed += weight;
    before = here;
  }
  while (found.length < at.length) found.push(before.value);
  return found;
}

function sortedByValue(values: Float64Array, weights: Float64Array) {
  // The typed array's own sort is many times faster than one by index: worth it where all weights are alike.
  if (weights.every((weight) => weight === weights[0])) return { values: values.toSorted(), weights };
  const order = Uint32Array.from(values.keys()).sort((a, b) => values[a] - values[b]);
  return {
    values: Float64Array.from(order, (index) => values[index]),
    weights: Float64Array.from(order, (index) => weights[index]),
  };
}
