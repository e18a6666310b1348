import { midRanks } from './midRanks';
import { pearson, type PairedScores } from './pearson';

/**
 * Spearman's rank correlation: Pearson's correlation of the mid-ranks; null with fewer than two pairs or when one side does not vary.
 * Source: Spearman 1904; ties by mid-ranks (Kendall & Gibbons 1990). Worked example: (1, 2, 3) and (10, 30, 20) give 0.5.
 */
export function spearman({ first, second }: PairedScores): number | null {
  return pearson({ first: midRanks(first), second: midRanks(second) });
}
