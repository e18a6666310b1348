import { chiSquareUpperTail } from './chiSquareDistribution';
import type { Undefined } from './coefficient';
import { fUpperTail } from './fDistribution';
import { midRanks } from './midRanks';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, widthOf, type ScoreTable } from './scoreTable';

type KendallW = {
  /** Corrected for ties: 1 = the same order, 0 = no common order. */
  readonly value: number;
  readonly uncorrected: number;
  readonly units: number;
  readonly raters: number;
  /** m (n - 1) W on n - 1 degrees of freedom, tie-corrected. */
  readonly chiSquare: { readonly value: number; readonly df: number; readonly p: number };
  /** (m - 1) W / (1 - W), closer for few units; null when W is 1. */
  readonly fApproximation: {
    readonly value: number;
    readonly df1: number;
    readonly df2: number;
    readonly p: number;
  } | null;
  /** Mean over raters of each complete unit's mid-rank, smallest score first. */
  readonly meanRanks: readonly number[];
};

/**
 * Kendall's coefficient of concordance over the units every rater scored: how alike m raters order n units,
 * whatever their levels.
 *
 * With R_i the sum of unit i's mid-ranks and T = Σ (t³ − t) over every rater's groups of t tied scores:
 *   W = 12 Σ (R_i − m (n + 1) / 2)² / (m² (n³ − n) − m T)
 * The mean of Spearman's ρ over the pairs of raters is (m W − 1) / (m − 1), without ties.
 * Tests of no common order: χ² = m (n − 1) W on n − 1 degrees of freedom, rough below eight units or so; and
 * F = (m − 1) W / (1 − W) on n − 1 − 2/m and (m − 1) times as many.
 *
 * In: units × raters; units with a gap are left out. Out: 0 … 1.
 * Undefined: no scores, one rater, fewer than two complete units, or raters who each give one score throughout.
 *
 * Source: Kendall & Babington Smith 1939, The problem of m rankings; ties and F: Kendall & Gibbons 1990, Rank
 * Correlation Methods, chapter 6.
 *
 * @example Three raters with one order, then one of three turned round: rank sums 5, 6, 7, so 12 · 2 / (9 · 24).
 * kendallW([[1, 5, 2], [2, 6, 4], [3, 9, 5]]).value // 1
 * kendallW([[1, 1, 3], [2, 2, 2], [3, 3, 1]]).value // 0.1111
 * kendallW([[1, 1, 3], [2, 2, 2], [3, 3, 1]]).chiSquare // { "value": 0.6667, "df": 2, "p": 0.7165 }
 * kendallW([[1, null], [null, 2]]) // { "undefined": "fewer than two units" }
 */
export function kendallW(table: ScoreTable): KendallW | Undefined {
  const complete = completeUnits(table);
  if ('undefined' in complete) return complete;
  const n = complete.length;
  const m = complete[0]?.length ?? 0;
  const { sum, ties, meanRanks } = rankSums(complete);
  const full = m * m * (n ** 3 - n);
  const corrected = full - m * ties;
  if (!(corrected > 1e-9 * full)) return { undefined: 'no variation' };
  const value = Math.min(1, (12 * sum) / corrected);
  const chiSquare = { value: m * (n - 1) * value, df: n - 1 };
  return {
    value,
    uncorrected: (12 * sum) / full,
    units: n,
    raters: m,
    chiSquare: { ...chiSquare, p: chiSquareUpperTail(chiSquare.value, chiSquare.df) },
    fApproximation: fApproximation(value, { n, m }),
    meanRanks,
  };
}

/**
 * W as a function of how often each complete unit is drawn; a unit drawn twice ties with itself.
 *
 * @example
 * const statistic = resampledW([[1, 1, 3], [2, 2, 2], [3, 3, 1]])
 * statistic.evaluate([1, 1, 1]) // 0.1111
 * statistic.evaluate([3, 0, 0]) // null
 */
export function resampledW(table: ScoreTable): ResampledStatistic | Undefined {
  const complete = completeUnits(canonicalTable(table));
  if ('undefined' in complete) return complete;
  const columns = (complete[0] ?? []).map((_, j) => {
    const scores = complete.map((row) => row[j] ?? 0);
    const levels = [...new Set(scores)].sort((a, b) => a - b);
    return {
      level: Int32Array.from(scores, (score) => levels.indexOf(score)),
      ranks: new Float64Array(levels.length),
      counts: new Float64Array(levels.length),
    };
  });
  const m = columns.length;
  return {
    units: complete.length,
    evaluate(drawn) {
      let n = 0;
      for (let u = 0; u < complete.length; u += 1) n += drawn[u];
      let ties = 0;
      for (const column of columns) ties += rankLevels(column, drawn);
      let sum = 0;
      for (let u = 0; u < complete.length; u += 1) {
        if (drawn[u] === 0) continue;
        let total = (-m * (n + 1)) / 2;
        for (const { level, ranks } of columns) total += ranks[level[u]];
        sum += drawn[u] * total * total;
      }
      const full = m * m * (n ** 3 - n);
      const corrected = full - m * ties;
      return corrected > 1e-9 * full ? Math.min(1, (12 * sum) / corrected) : null;
    },
  };
}

function completeUnits(table: ScoreTable): number[][] | Undefined {
  const width = widthOf(table);
  if (table.every((row) => row.every((score) => score === null))) return { undefined: 'no scores' };
  if (width < 2) return { undefined: 'one rater' };
  const complete = table.map((row) => row.filter((score) => score !== null)).filter((row) => row.length === width);
  return complete.length < 2 ? { undefined: 'fewer than two units' } : complete;
}

/** Σ (R - mean)² of the rank sums, and Σ (t³ - t) over every rater's groups of ties. */
function rankSums(complete: readonly number[][]): { sum: number; ties: number; meanRanks: number[] } {
  const n = complete.length;
  const m = complete[0]?.length ?? 0;
  const totals = complete.map(() => 0);
  let ties = 0;
  for (let j = 0; j < m; j += 1) {
    const scores = complete.map((row) => row[j] ?? 0);
    midRanks(scores).forEach((rank, i) => (totals[i] = (totals[i] ?? 0) + rank));
    for (const score of new Set(scores)) {
      const t = scores.filter((other) => other === score).length;
      ties += t ** 3 - t;
    }
  }
  const mean = (m * (n + 1)) / 2;
  return {
    sum: totals.reduce((sum, total) => sum + (total - mean) ** 2, 0),
    ties,
    meanRanks: totals.map((total) => total / m),
  };
}

function fApproximation(w: number, { n, m }: { n: number; m: number }): KendallW['fApproximation'] {
  if (w >= 1) return null;
  const value = ((m - 1) * w) / (1 - w);
  const df1 = n - 1 - 2 / m;
  const df2 = (m - 1) * df1;
  return df1 > 0 ? { value, df1, df2, p: fUpperTail(value, { df1, df2 }) } : null;
}

type RankedColumn = { readonly level: Int32Array; readonly ranks: Float64Array; readonly counts: Float64Array };

/** Mid-rank of every level under the counts drawn; returns Σ (t³ - t). */
function rankLevels({ level, ranks, counts }: RankedColumn, drawn: ArrayLike<number>): number {
  counts.fill(0);
  for (let u = 0; u < level.length; u += 1) counts[level[u]] = counts[level[u]] + drawn[u];
  let below = 0;
  let ties = 0;
  for (let c = 0; c < counts.length; c += 1) {
    const t = counts[c];
    ranks[c] = below + (t + 1) / 2;
    below += t;
    ties += t ** 3 - t;
  }
  return ties;
}
