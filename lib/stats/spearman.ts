import { midRanks } from './midRanks';
import { pearson, type PairedScores } from './pearson';

/**
 * Spearman's rank correlation: how far two raters order the same units alike, whatever the levels and the steps
 * they use.
 *
 * ρ = Pearson's correlation of the mid-ranks. Without ties that is 1 − 6 Σ d² / (n (n² − 1)), d the difference of a
 * unit's two ranks.
 *
 * In: scores in any unit. Out: −1 (reversed order) … 1 (same order).
 * Null with fewer than two pairs, or when one side gives one score throughout.
 *
 * Source: Spearman 1904, The proof and measurement of association between two things. Ties: Kendall & Gibbons 1990.
 *
 * @example One exchange among three: Σ d² = 2, so ρ = 1 − 12 / 24.
 * spearman({ first: [1, 2, 3], second: [10, 30, 20] }) // 0.5
 * spearman({ first: [1, 2, 3], second: [4, 4, 4] }) // null
 */
export function spearman({ first, second }: PairedScores): number | null {
  return pearson({ first: midRanks(first), second: midRanks(second) });
}
