export type Times = { readonly many: number; readonly p50: number; readonly p99: number; readonly most: number };

/** Quantiles by nearest rank (Hyndman & Fan 1996, definition 1), in milliseconds; NaN where nothing was measured, so that no goal holds. */
export function timesOf(values: readonly number[]): Times {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? NaN;
  return { many: sorted.length, p50: at(0.5), p99: at(0.99), most: at(1) };
}
