import type { Undefined } from './coefficient';
import { kendallTau } from './kendallTau';
import { pearson, type PairedScores } from './pearson';
import { raterPairs } from './raterPairs';
import type { ScoreTable } from './scoreTable';
import { spearman } from './spearman';

/** `pearson` of the scores, `spearman` of their mid-ranks, Kendall's `tau-b` of their order. */
export type CorrelationKind = 'pearson' | 'spearman' | 'tau-b';
type PairCorrelation = {
  readonly raters: readonly [number, number];
  readonly units: number;
  readonly result: { readonly value: number } | Undefined;
};
/**
 * A correlation for each pair of raters (`raters`: their columns from 0, `units`: how many both scored), and the
 * mean of those that have a value.
 */
export type PairwiseCorrelations = {
  readonly pairs: readonly PairCorrelation[];
  readonly mean: { readonly value: number } | Undefined;
};

const correlations: Readonly<Record<CorrelationKind, (pair: PairedScores) => number | null>> = {
  pearson,
  spearman,
  'tau-b': kendallTau,
};

/**
 * A correlation for every pair of raters over the units both scored, re-ranked within those, and the mean of the
 * defined ones.
 *
 * In: units × raters, gaps allowed. Out: −1 … 1 for each pair, and their plain mean.
 * A pair is undefined with fewer than two common units or when one of the two does not vary; the mean when every
 * pair is.
 *
 * Source: `pearson`, `spearman`, `kendallTau`; averaging over pairs is common practice.
 *
 * @example Two raters in the same order, and a third who turns one pair round.
 * rankCorrelations([[1, 2], [2, 5], [3, 6]], 'spearman').mean // { "value": 1 }
 * rankCorrelations([[1, 2, 1], [2, 5, 3], [3, 6, 2]], 'tau-b').mean // { "value": 0.5556 }
 * rankCorrelations([[1, null], [null, 5]], 'pearson').pairs[0].result // { "undefined": "fewer than two units" }
 */
export function rankCorrelations(table: ScoreTable, kind: CorrelationKind): PairwiseCorrelations {
  const pairs = raterPairs(table).map((pair) => {
    const value = correlations[kind](pair);
    const result =
      value === null
        ? { undefined: pair.first.length < 2 ? ('fewer than two units' as const) : ('no variation' as const) }
        : { value };
    return { raters: pair.raters, units: pair.first.length, result };
  });
  const values = pairs.flatMap(({ result }) => ('value' in result ? [result.value] : []));
  if (values.length === 0) return { pairs, mean: { undefined: 'no pair of raters with a defined value' } };
  return { pairs, mean: { value: values.reduce((sum, value) => sum + value, 0) / values.length } };
}
