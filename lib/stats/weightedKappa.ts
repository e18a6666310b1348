import type { AgreementWeights } from './agreementWeights';
import type { Coefficient, Undefined } from './coefficient';
import { normalQuantile, normalUpperTail } from './normalDistribution';
import type { PairedScores } from './pearson';

/**
 * A weighted κ with its standard error (of the estimate, not that of κ = 0) and its parts: `observed` and `expected`
 * agreement, 0 … 1.
 */
export type KappaDetail = Coefficient & {
  readonly se: number;
  readonly observed: number;
  readonly expected: number;
  /** Test of κ = 0; null when its standard error is 0. */
  readonly test: { readonly se: number; readonly z: number; readonly p: number } | null;
};

/**
 * Cohen's κ, weighted: agreement of two raters beyond what their own marginals would give by chance.
 *
 * With shares p_ij of the n units, marginals p_i. and p_.j, weights w_ij:
 *   observed  p_o = Σ w_ij p_ij,   expected  p_e = Σ w_ij p_i. p_.j,   κ = (p_o − p_e) / (1 − p_e)
 *   se² = [Σ p_ij (w_ij (1 − p_e) − (w̄_i. + w̄_.j)(1 − p_o))² − (p_o p_e − 2 p_e + p_o)²] / (n (1 − p_e)⁴)
 * with w̄_i. and w̄_.j the weights' means under the other rater's marginal. Limits κ ± z · se, not cut at ±1.
 *
 * In: `counts`, square over the whole scale, first rater's category by row, second's by column; `weights` of the
 * same size.
 * Undefined with no counts, or when chance agreement is 1 (both always use one and the same category).
 *
 * Source: Cohen 1960 and 1968; standard errors: Fleiss, Cohen & Everitt 1969.
 *
 * @example 200 units in three categories: p_o = .70, p_e = .41.
 * const counts = [[88, 14, 18], [10, 40, 10], [2, 6, 12]]
 * const { value, observed, expected } = weightedKappa(counts, agreementWeights('identity', 3))
 * [value, observed, expected] // [0.492, 0.70, 0.41]
 * weightedKappa(counts, agreementWeights('quadratic', 3)).value // 0.4545
 * weightedKappa([[4, 0], [0, 0]], agreementWeights('identity', 2)) // { "undefined": "chance agreement is certain" }
 */
export function weightedKappa(
  counts: readonly (readonly number[])[],
  weights: AgreementWeights,
  level = 0.95,
): KappaDetail | Undefined {
  const n = counts.flat().reduce((sum, count) => sum + count, 0);
  if (n === 0) return { undefined: 'fewer than two comparisons in common' };
  const table = { shares: counts.map((row) => row.map((count) => count / n)), weights };
  const { rows, columns, observed, expected } = marginals(table);
  if (!(1 - expected > 1e-12)) return { undefined: 'chance agreement is certain' };
  const value = (observed - expected) / (1 - expected);
  let spread = 0;
  let spreadNull = 0;
  table.shares.forEach((row, i) =>
    row.forEach((share, j) => {
      const mean = (rows.weight[i] ?? 0) + (columns.weight[j] ?? 0);
      const weight = weights[i]?.[j] ?? 0;
      spread += share * (weight * (1 - expected) - mean * (1 - observed)) ** 2;
      spreadNull += (rows.share[i] ?? 0) * (columns.share[j] ?? 0) * (weight - mean) ** 2;
    }),
  );
  const se =
    Math.sqrt(Math.max(0, spread - (observed * expected - 2 * expected + observed) ** 2) / n) / (1 - expected) ** 2;
  const seNull = Math.sqrt(Math.max(0, spreadNull - expected ** 2) / n) / (1 - expected);
  const reach = normalQuantile((1 + level) / 2) * se;
  const test = seNull > 0 ? { se: seNull, z: value / seNull, p: 2 * normalUpperTail(Math.abs(value / seNull)) } : null;
  return { value, low: value - reach, high: value + reach, se, observed, expected, test };
}

/**
 * The square table of two raters' scores over the categories in order; null when a score is not one of them.
 *
 * @example
 * pairCounts({ first: [1, 1, 2], second: [1, 2, 2] }, [1, 2]) // [[1, 1], [0, 1]]
 * pairCounts({ first: [1], second: [3] }, [1, 2]) // null
 */
export function pairCounts({ first, second }: PairedScores, categories: readonly number[]): number[][] | null {
  const counts = categories.map(() => categories.map(() => 0));
  for (let i = 0; i < first.length; i += 1) {
    const row = counts[categories.indexOf(first[i] ?? NaN)];
    const column = categories.indexOf(second[i] ?? NaN);
    if (row === undefined || column < 0) return null;
    row[column] = (row[column] ?? 0) + 1;
  }
  return counts;
}

type Margin = { readonly share: readonly number[]; readonly weight: readonly number[] };
type Marginals = {
  readonly rows: Margin;
  readonly columns: Margin;
  readonly observed: number;
  readonly expected: number;
};

function marginals({ shares, weights }: { shares: readonly number[][]; weights: AgreementWeights }): Marginals {
  const rowShare = shares.map((row) => row.reduce((sum, share) => sum + share, 0));
  const columnShare = shares.map((_, j) => shares.reduce((sum, row) => sum + (row[j] ?? 0), 0));
  const rowWeight = shares.map((_, i) =>
    columnShare.reduce((sum, share, j) => sum + share * (weights[i]?.[j] ?? 0), 0),
  );
  const columnWeight = shares.map((_, j) =>
    rowShare.reduce((sum, share, i) => sum + share * (weights[i]?.[j] ?? 0), 0),
  );
  const observed = shares.reduce(
    (sum, row, i) => sum + row.reduce((part, share, j) => part + share * (weights[i]?.[j] ?? 0), 0),
    0,
  );
  const expected = rowShare.reduce((sum, share, i) => sum + share * (rowWeight[i] ?? 0), 0);
  return {
    rows: { share: rowShare, weight: rowWeight },
    columns: { share: columnShare, weight: columnWeight },
    observed,
    expected,
  };
}
