import type { ScoreTable } from './scoreTable';

/** Analysis of variance of a complete table of units × raters, one score a cell. */
export type TwoWayMeanSquares = {
  readonly units: number;
  readonly raters: number;
  /** MSR: between units. */
  readonly between: number;
  /** MSC: between raters. */
  readonly raterSquare: number;
  /** MSE: what neither explains. */
  readonly error: number;
  /** MSW: within units, raters' differences included. */
  readonly within: number;
};

/** A sum of squares below this share of the total is rounding noise and counts as 0. */
const NOISE = 1e-13;

/**
 * @param table complete, at least two rows and two columns.
 * @param counts how often each unit counts (a resample); left out, once each.
 * Source: Shrout & Fleiss 1979, table 1. Worked example: their 6 × 4 table has MSR 11.24, MSC 32.49, MSE 1.02, MSW 6.26.
 */
export function twoWayMeanSquares(table: ScoreTable, counts?: ArrayLike<number>): TwoWayMeanSquares {
  const k = table[0]?.length ?? 0;
  const weights = table.map((_, i) => counts?.[i] ?? (counts ? 0 : 1));
  const n = weights.reduce((sum, weight) => sum + weight, 0);
  const rowMeans = table.map((row) => row.reduce<number>((sum, score) => sum + (score ?? 0), 0) / k);
  const grand = rowMeans.reduce((sum, mean, i) => sum + mean * (weights[i] ?? 0), 0) / n;
  const columnMeans = Array.from({ length: k }, (_, j) => table.reduce((sum, row, i) => sum + (row[j] ?? 0) * (weights[i] ?? 0), 0) / n);
  let between = 0;
  let error = 0;
  let within = 0;
  for (let i = 0; i < table.length; i += 1) {
    const weight = weights[i] ?? 0;
    if (weight === 0) continue;
    const rowMean = rowMeans[i] ?? 0;
    between += weight * k * (rowMean - grand) ** 2;
    for (let j = 0; j < k; j += 1) {
      const score = table[i]?.[j] ?? 0;
      error += weight * (score - rowMean - (columnMeans[j] ?? 0) + grand) ** 2;
      within += weight * (score - rowMean) ** 2;
    }
  }
  const raters = columnMeans.reduce((sum, mean) => sum + n * (mean - grand) ** 2, 0);
  const noise = NOISE * (between + within);
  const mean = (sum: number, df: number): number => (sum <= noise ? 0 : sum / df);
  return {
    units: n,
    raters: k,
    between: mean(between, n - 1),
    raterSquare: mean(raters, k - 1),
    error: mean(error, (n - 1) * (k - 1)),
    within: mean(within, n * (k - 1)),
  };
}

export type TwoWayComponents = { readonly unit: number; readonly rater: number; readonly residual: number };

/** Expected-mean-square estimates, negative ones kept. */
export function twoWayComponents({ units, raters, between, raterSquare, error }: TwoWayMeanSquares): TwoWayComponents {
  return { unit: (between - error) / raters, rater: (raterSquare - error) / units, residual: error };
}
