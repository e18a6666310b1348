import type { Undefined } from './coefficient';
import { normalUpperTail } from './normalDistribution';

/** Fleiss' κ with its parts: `observed` and `expected` agreement, 0 … 1, and the κ of each category. */
export type FleissKappa = {
  readonly value: number;
  readonly observed: number;
  readonly expected: number;
  /** Test of κ = 0 (Fleiss, Nee & Landis 1979); null when its standard error is 0. */
  readonly test: { readonly se: number; readonly z: number; readonly p: number } | null;
  /** κ of each category against the rest; null for one never or always used. `categorySe` is theirs under κ = 0. */
  readonly byCategory: readonly (number | null)[];
  readonly categorySe: number;
  /** Randolph's free-marginal κ (2005): chance agreement 1 / number of categories. */
  readonly freeMarginal: number;
};

/**
 * Fleiss' κ: chance-corrected agreement of m ratings of every unit, by whichever raters (for gaps see
 * `chanceCorrectedAgreement`).
 *
 * With n_ic how many of the m raters gave unit i of n the category c, and p_c the share of category c among all
 * ratings:
 *   observed  P̄ = Σ n_ic (n_ic − 1) / (n m (m − 1)),   expected  P_e = Σ p_c²,   κ = (P̄ − P_e) / (1 − P_e)
 *   category  κ_c = 1 − Σ_i n_ic (m − n_ic) / (n m (m − 1) p_c (1 − p_c))
 * The test of κ = 0 takes its standard error from Fleiss, Nee & Landis 1979.
 *
 * In: `counts[unit][category]`; every row sums to m ≥ 2. Out: at most 1; 0 is chance.
 * Undefined: no units, fewer than two ratings, unequal numbers of them, or one category used throughout.
 *
 * Source: Fleiss 1971, Measuring nominal scale agreement among many raters; Randolph 2005 (free-marginal).
 *
 * @example Ten units, fourteen raters, five categories: P̄ = .378, P_e = .213.
 * const first = [[0, 0, 0, 0, 14], [0, 2, 6, 4, 2], [0, 0, 3, 5, 6], [0, 3, 9, 2, 0], [2, 2, 8, 1, 1]]
 * const second = [[7, 7, 0, 0, 0], [3, 2, 6, 3, 0], [2, 5, 3, 2, 2], [6, 5, 2, 1, 0], [0, 2, 2, 3, 7]]
 * const { value, observed, expected } = fleissKappa([...first, ...second])
 * [value, observed, expected] // [0.210, 0.378, 0.213]
 * fleissKappa([[2, 0], [1, 0]]) // { "undefined": "missing cells" }
 */
export function fleissKappa(counts: readonly (readonly number[])[]): FleissKappa | Undefined {
  const n = counts.length;
  const q = counts[0]?.length ?? 0;
  const m = (counts[0] ?? []).reduce((sum, count) => sum + count, 0);
  if (n === 0) return { undefined: 'no scores' };
  if (m < 2) return { undefined: 'one rater' };
  if (counts.some((row) => row.reduce((sum, count) => sum + count, 0) !== m)) return { undefined: 'missing cells' };
  const shares = Array.from({ length: q }, (_, c) => counts.reduce((sum, row) => sum + (row[c] ?? 0), 0) / (n * m));
  const pairs = n * m * (m - 1);
  const observed =
    counts.reduce((sum, row) => sum + row.reduce((part, count) => part + count * (count - 1), 0), 0) / pairs;
  const expected = shares.reduce((sum, share) => sum + share * share, 0);
  if (!(1 - expected > 1e-12)) return { undefined: 'chance agreement is certain' };
  const value = (observed - expected) / (1 - expected);
  return {
    value,
    observed,
    expected,
    test: nullTest(value, { shares, pairs }),
    byCategory: shares.map((share, c) =>
      categoryKappa(
        counts.map((row) => row[c] ?? 0),
        { share, m },
      ),
    ),
    categorySe: Math.sqrt(2 / pairs),
    freeMarginal: (observed - 1 / q) / (1 - 1 / q),
  };
}

function nullTest(value: number, { shares, pairs }: { shares: readonly number[]; pairs: number }): FleissKappa['test'] {
  const variance = shares.reduce((sum, p) => sum + p * (1 - p), 0);
  const skew = shares.reduce((sum, p) => sum + p * (1 - p) * (1 - 2 * p), 0);
  const se = (Math.SQRT2 * Math.sqrt(Math.max(0, variance ** 2 - skew))) / (variance * Math.sqrt(pairs));
  return se > 0 ? { se, z: value / se, p: 2 * normalUpperTail(Math.abs(value / se)) } : null;
}

function categoryKappa(counts: readonly number[], { share, m }: { share: number; m: number }): number | null {
  if (share <= 0 || share >= 1) return null;
  const disagreement = counts.reduce((sum, count) => sum + count * (m - count), 0);
  return 1 - disagreement / (counts.length * m * (m - 1) * share * (1 - share));
}
