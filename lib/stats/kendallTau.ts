import type { PairedScores } from './pearson';

/**
 * Kendall's τ-b: the balance of pairs of units that two raters order alike and pairs they order the other way.
 *
 * τ_b = (C − D) / √((P − T₁)(P − T₂)): C concordant and D discordant pairs of the P = n (n − 1) / 2 pairs of units,
 * T₁ and T₂ the pairs tied by the first and by the second rater.
 *
 * In: scores in any unit. Out: −1 … 1; without ties, 1 − 2 · (share of pairs turned round).
 * Null with fewer than two units, or when one side gives one score throughout.
 *
 * Source: Kendall 1938, A new measure of rank correlation; ties: Kendall 1945.
 *
 * @example Three units: two pairs alike, one the other way.
 * kendallTau({ first: [1, 2, 3], second: [1, 3, 2] }) // 0.3333
 * kendallTau({ first: [1, 1, 2], second: [1, 2, 3] }) // 0.8165
 */
export function kendallTau({ first, second }: PairedScores): number | null {
  let balance = 0;
  let untiedFirst = 0;
  let untiedSecond = 0;
  for (let i = 0; i < first.length; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const x = Math.sign((first[i] ?? 0) - (first[j] ?? 0));
      const y = Math.sign((second[i] ?? 0) - (second[j] ?? 0));
      balance += x * y;
      untiedFirst += x * x;
      untiedSecond += y * y;
    }
  }
  return untiedFirst === 0 || untiedSecond === 0 ? null : balance / Math.sqrt(untiedFirst * untiedSecond);
}
