import type { ScoreTable } from './scoreTable';

/**
 * Analysis of variance of a complete table of units × raters, one score a cell; mean squares in squared points.
 */
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
 * Mean squares of the two-way layout with one score a cell, and those of the one-way layout.
 *
 * With n units i, k raters j, means ȳ_i., ȳ_.j and ȳ..:
 *   MSR = k Σ (ȳ_i. − ȳ..)² / (n − 1)
 *   MSC = n Σ (ȳ_.j − ȳ..)² / (k − 1)
 *   MSE = Σ (y_ij − ȳ_i. − ȳ_.j + ȳ..)² / ((n − 1)(k − 1))
 *   MSW = Σ (y_ij − ȳ_i.)² / (n (k − 1))
 * A sum of squares that is rounding noise against the whole counts as 0.
 *
 * In: a table without gaps, at least two rows and two columns; `counts`: how often each unit counts (a resample),
 * left out, once each. A gap would be read as 0: ask `isComplete` first.
 *
 * Source: Fisher 1925; Shrout & Fleiss 1979, table 1.
 *
 * @example Shrout & Fleiss's table, whose published mean squares are 11.24, 32.49, 1.02 and 6.26.
 * const table = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]]
 * const { between, raterSquare, error, within } = twoWayMeanSquares(table)
 * [between, raterSquare, error, within] // [11.24, 32.49, 1.02, 6.26]
 */
export function twoWayMeanSquares(table: ScoreTable, counts?: ArrayLike<number>): TwoWayMeanSquares {
  const k = table[0]?.length ?? 0;
  const weights = table.map((_, i) => counts?.[i] ?? (counts ? 0 : 1));
  const n = weights.reduce((sum, weight) => sum + weight, 0);
  const rowMeans = table.map((row) => row.reduce<number>((sum, score) => sum + (score ?? 0), 0) / k);
  const grand = rowMeans.reduce((sum, mean, i) => sum + mean * (weights[i] ?? 0), 0) / n;
  const columnMeans = Array.from(
    { length: k },
    (_, j) => table.reduce((sum, row, i) => sum + (row[j] ?? 0) * (weights[i] ?? 0), 0) / n,
  );
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

/** Variance components of score = mean + unit + rater + residual, in squared points. */
export type TwoWayComponents = { readonly unit: number; readonly rater: number; readonly residual: number };

/**
 * Variance components from mean squares set equal to what they are expected to be; negative estimates are kept.
 *
 * unit = (MSR − MSE) / k, rater = (MSC − MSE) / n, residual = MSE. On complete data with positive estimates REML
 * gives the same.
 * Source: Searle, Casella & McCulloch 1992, Variance Components, chapter 4.
 *
 * @example
 * const squares = { units: 6, raters: 4, between: 11.24, raterSquare: 32.49, error: 1.02, within: 6.26 }
 * twoWayComponents(squares) // { "unit": 2.555, "rater": 5.245, "residual": 1.02 }
 */
export function twoWayComponents({ units, raters, between, raterSquare, error }: TwoWayMeanSquares): TwoWayComponents {
  return { unit: (between - error) / raters, rater: (raterSquare - error) / units, residual: error };
}
