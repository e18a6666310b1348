/** One seat's readings of one ratio, each from a placing of its own. */
export type SeatReadings = { readonly seat: string; readonly values: readonly number[] };

export type PlacingAgreement = {
  readonly seats: number;
  /** Middle of the seats' own middles. */
  readonly median: number;
  /** Points (hundredths of the ratio) between the highest and the lowest seat; null with fewer than two seats. */
  readonly between: number | null;
  /** Largest distance in points between two readings of one seat; null when nobody placed twice. */
  readonly within: number | null;
};

/**
 * How far repeated placings lie apart, in points: hundredths of the ratio, so 1.04 and 1.08 are 4 points apart.
 * Null when there is no reading at all (ST1).
 */
export function placingAgreement(readings: readonly SeatReadings[]): PlacingAgreement | null {
  const given = readings.filter(({ values }) => values.length > 0);
  if (given.length === 0) return null;
  const middles = given.map(({ values }) => medianOf(values));
  const repeats = given.filter(({ values }) => values.length > 1).map(({ values }) => rangeOf(values));
  return {
    seats: given.length,
    median: medianOf(middles),
    between: given.length < 2 ? null : 100 * rangeOf(middles),
    within: repeats.length === 0 ? null : 100 * Math.max(...repeats),
  };
}

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? upper) + upper) / 2;
}

const rangeOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
