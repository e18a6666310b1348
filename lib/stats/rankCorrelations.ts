import type { Undefined } from './coefficient';
import { kendallTau } from './kendallTau';
import { pearson, type PairedScores } from './pearson';
import { raterPairs } from './raterPairs';
import type { ScoreTable } from './scoreTable';
import { spearman } from './spearman';

export type CorrelationKind = 'pearson' | 'spearman' | 'tau-b';
type PairCorrelation = { readonly raters: readonly [number, number]; readonly units: number; readonly result: { readonly value: number } | Undefined };
export type PairwiseCorrelations = { readonly pairs: readonly PairCorrelation[]; readonly mean: { readonly value: number } | Undefined };

const correlations: Readonly<Record<CorrelationKind, (pair: PairedScores) => number | null>> = { pearson, spearman, 'tau-b': kendallTau };

/**
 * A correlation for every pair of raters over the units both scored, re-ranked within those, and the mean of the defined ones.
 * A pair is undefined with fewer than two common units or when one of the two does not vary.
 * Worked example: two raters in the same order have every correlation of ranks 1.
 */
export function rankCorrelations(table: ScoreTable, kind: CorrelationKind): PairwiseCorrelations {
  const pairs = raterPairs(table).map((pair) => {
    const value = correlations[kind](pair);
    const result = value === null ? { undefined: pair.first.length < 2 ? ('fewer than two units' as const) : ('no variation' as const) } : { value };
    return { raters: pair.raters, units: pair.first.length, result };
  });
  const values = pairs.flatMap(({ result }) => ('value' in result ? [result.value] : []));
  if (values.length === 0) return { pairs, mean: { undefined: 'no pair of raters with a defined value' } };
  return { pairs, mean: { value: values.reduce((sum, value) => sum + value, 0) / values.length } };
}
