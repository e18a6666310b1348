import type { Undefined } from './coefficient';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, raterCount, scoresOf, type ScoreTable } from './scoreTable';

/**
 * Percent agreement: the mean over units with two scores or more of the share of their pairs of scores that are equal; 0 … 1.
 * Undefined: no scores, one rater, or no unit with two scores. It needs no scale and no chance model, and is high wherever nearly all is normal.
 * Worked example: [[1, 1, 2], [3, 3, 3]] gives (1/3 + 1) / 2 = 2/3. Definition as in Fleiss 1971.
 */
export function percentAgreement(table: ScoreTable): { readonly value: number } | Undefined {
  const statistic = resampledPercent(table);
  if ('undefined' in statistic) return statistic;
  return { value: statistic.evaluate(new Float64Array(statistic.units).fill(1)) ?? 0 };
}

export function resampledPercent(table: ScoreTable): ResampledStatistic | Undefined {
  const raters = raterCount(table);
  if (raters === 0) return { undefined: 'no scores' };
  if (raters === 1) return { undefined: 'one rater' };
  const shares = canonicalTable(table).map(scoresOf).filter((scores) => scores.length >= 2).map(equalPairs);
  if (shares.length === 0) return { undefined: 'fewer than two scores in every unit' };
  return {
    units: shares.length,
    evaluate(counts) {
      let sum = 0;
      let n = 0;
      for (let u = 0; u < shares.length; u += 1) {
        sum += (shares[u]) * (counts[u]);
        n += counts[u];
      }
      return n > 0 ? sum / n : null;
    },
  };
}

function equalPairs(scores: readonly number[]): number {
  let equal = 0;
  for (let i = 0; i < scores.length; i += 1) for (let j = 0; j < i; j += 1) if (scores[i] === scores[j]) equal += 1;
  return (2 * equal) / (scores.length * (scores.length - 1));
}
