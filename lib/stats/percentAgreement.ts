import type { Undefined } from './coefficient';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, raterCount, scoresOf, type ScoreTable } from './scoreTable';

/**
 * Percent agreement: how often two raters drawn at random gave a unit the same score.
 *
 * p_o = the mean over units with two scores or more of (equal pairs) / (pairs). It has no chance model and no
 * scale: it is high wherever nearly all is alike, and one step apart counts as much as six.
 *
 * In: units × raters, gaps allowed. Out: 0 … 1.
 * Undefined: no scores, one rater, or no unit with two scores.
 *
 * Source: Fleiss 1971, Measuring nominal scale agreement among many raters (the P̄ of its kappa).
 *
 * @example One pair of three agrees, then three of three: (1/3 + 1) / 2.
 * percentAgreement([[1, 1, 2], [3, 3, 3]]) // { "value": 0.6667 }
 * percentAgreement([[1, null], [null, 2]]) // { "undefined": "fewer than two scores in every unit" }
 */
export function percentAgreement(table: ScoreTable): { readonly value: number } | Undefined {
  const statistic = resampledPercent(table);
  if ('undefined' in statistic) return statistic;
  return { value: statistic.evaluate(new Float64Array(statistic.units).fill(1)) ?? 0 };
}

/**
 * Percent agreement as a function of how often each unit with two scores is drawn; the units stand in canonical
 * order.
 *
 * @example
 * resampledPercent([[1, 1, 2], [3, 3, 3]]).evaluate([1, 1]) // 0.6667
 * resampledPercent([[1, 1, 2], [3, 3, 3]]).evaluate([0, 0]) // null
 */
export function resampledPercent(table: ScoreTable): ResampledStatistic | Undefined {
  const raters = raterCount(table);
  if (raters === 0) return { undefined: 'no scores' };
  if (raters === 1) return { undefined: 'one rater' };
  const shares = canonicalTable(table)
    .map(scoresOf)
    .filter((scores) => scores.length >= 2)
    .map(equalPairs);
  if (shares.length === 0) return { undefined: 'fewer than two scores in every unit' };
  return {
    units: shares.length,
    evaluate(counts) {
      let sum = 0;
      let n = 0;
      for (let u = 0; u < shares.length; u += 1) {
        sum += shares[u] * counts[u];
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
