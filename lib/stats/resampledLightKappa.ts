import { isUndefined, type Undefined } from './coefficient';
import { lightKappa, type KappaScale } from './lightKappa';
import type { ResampledStatistic } from './resampledStatistic';
import { canonicalTable, scoresOf, type ScoreTable } from './scoreTable';

/**
 * Light's κ as a function of how often each unit with two scores is drawn, units in canonical order.
 *
 * Each pair's κ is taken anew from the drawn units, its marginals too; a pair without a κ in a draw is left out of
 * that draw's mean, and a draw without any pair has none (null). Undefined as `lightKappa`.
 *
 * @example Each unit once, then only two that agree in different categories.
 * const scale = { categories: [1, 2], weights: agreementWeights('identity', 2) }
 * const statistic = resampledLightKappa([[1, 1], [1, 1], [1, 2], [2, 2]], scale)
 * statistic.evaluate([1, 1, 1, 1]) // 0.5
 * statistic.evaluate([1, 0, 0, 1]) // 1
 * statistic.evaluate([2, 0, 0, 0]) // null
 */
export function resampledLightKappa(table: ScoreTable, scale: KappaScale): ResampledStatistic | Undefined {
  const light = lightKappa(table, scale);
  if (isUndefined(light)) return light;
  const units = canonicalTable(table).filter((row) => scoresOf(row).length >= 2);
  const q = scale.categories.length;
  const weights = Float64Array.from({ length: q * q }, (_, at) => scale.weights[Math.floor(at / q)]?.[at % q] ?? 0);
  // Category of each unit by rater; -1 where there is no score.
  const raters = (units[0] ?? []).map((_, j) =>
    Int32Array.from(units, (row) => scale.categories.indexOf(row[j] ?? NaN)),
  );
  const margins = { first: new Float64Array(q), second: new Float64Array(q) };
  return {
    units: units.length,
    evaluate(counts) {
      let sum = 0;
      let pairs = 0;
      for (const [a, first] of raters.entries()) {
        for (const second of raters.slice(a + 1)) {
          const kappa = pairKappa({ first, second, counts }, { weights, ...margins });
          if (kappa === null) continue;
          sum += kappa;
          pairs += 1;
        }
      }
      return pairs > 0 ? sum / pairs : null;
    },
  };
}

type DrawnPair = { readonly first: Int32Array; readonly second: Int32Array; readonly counts: ArrayLike<number> };
type KappaSpace = { readonly weights: Float64Array; readonly first: Float64Array; readonly second: Float64Array };

function pairKappa(pair: DrawnPair, space: KappaSpace): number | null {
  const q = space.first.length;
  space.first.fill(0);
  space.second.fill(0);
  let n = 0;
  let observed = 0;
  for (let u = 0; u < pair.first.length; u += 1) {
    const row = pair.first[u];
    const column = pair.second[u];
    const times = pair.counts[u];
    if (row < 0 || column < 0 || times === 0) continue;
    n += times;
    observed += times * space.weights[row * q + column];
    space.first[row] = space.first[row] + times;
    space.second[column] = space.second[column] + times;
  }
  let expected = 0;
  for (let row = 0; row < q; row += 1) {
    const share = space.first[row];
    if (share === 0) continue;
    for (let column = 0; column < q; column += 1)
      expected += share * space.second[column] * space.weights[row * q + column];
  }
  const chance = n > 0 ? expected / (n * n) : 1;
  return 1 - chance > 1e-12 ? (observed / n - chance) / (1 - chance) : null;
}
