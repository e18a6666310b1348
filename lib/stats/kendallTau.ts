import type { PairedScores } from './pearson';

/**
 * Kendall's τ-b: concordant minus discordant pairs over √((pairs untied in the first)(pairs untied in the second)).
 * Null with fewer than two pairs or when one side does not vary. Source: Kendall 1945. Worked example: (1, 2, 3) and (1, 3, 2) give 1/3.
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
