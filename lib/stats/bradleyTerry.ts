import type { Undefined } from './coefficient';
import { comparisonAbilities, type ComparisonAbilities } from './comparisonAbilities';
import { fitChoices, type ChoiceRecord } from './comparisonModel';
import { comparedItems, comparisonFault, orderedPairs, type PairCounts } from './pairedComparisons';

export type BradleyTerry = ComparisonAbilities & {
  /** Σ wins · log probability, no binomial coefficients. */
  readonly logLikelihood: number;
  readonly deviance: { readonly value: number; readonly df: number };
  /** Log odds added for the item with the advantage of place; null when no record has one. */
  readonly place: { readonly value: number; readonly se: number } | null;
};

/**
 * Bradley–Terry model: log odds of the first item against the second = ability difference (+ place). A tie counts as half a win each.
 * Undefined with fewer than two items, items not connected, or an item (or group) that always or never wins against the rest: then no finite
 * estimate exists. Source: Bradley & Terry 1952; Ford 1957 (existence). Worked example: a beats b 3 times in 4: difference log 3 = 1.0986.
 */
export function bradleyTerry(pairs: readonly PairCounts[]): BradleyTerry | Undefined {
  const items = comparedItems(pairs);
  if (items.length < 2) return { undefined: 'fewer than two items' };
  const fault = comparisonFault(pairs);
  if (fault !== null) return { undefined: fault };
  const withPlace = pairs.some(({ place }) => (place ?? 0) !== 0);
  const size = items.length - 1 + (withPlace ? 1 : 0);
  const records = orderedPairs(pairs).map((pair) => asChoice(pair, items));
  const fit = fitChoices(records, size);
  // The likelihood is concave: it has no top only when some direction separates the outcomes (place included).
  if (fit === null) return { undefined: 'an item always or never wins' };
  const played = records.filter(({ outcomes }) => outcomes.some(({ count }) => count > 0));
  const saturated = played.reduce((sum, { outcomes }) => sum + bestLogLikelihood(outcomes.map(({ count }) => count)), 0);
  const at = size - 1;
  return {
    ...comparisonAbilities(items, fit),
    logLikelihood: fit.logLikelihood,
    deviance: { value: 2 * (saturated - fit.logLikelihood), df: played.length - size },
    place: withPlace ? { value: fit.parameters[at] ?? 0, se: Math.sqrt(fit.covariance[at * size + at] ?? 0) } : null,
  };
}

function asChoice({ first, second, firstWins, secondWins, ties, place }: PairCounts, items: readonly string[]): ChoiceRecord {
  const term = (item: string): (readonly [number, number])[] => (items.indexOf(item) === 0 ? [] : [[items.indexOf(item) - 1, 1]]);
  const advantage: (readonly [number, number])[] = place ? [[items.length - 1, place]] : [];
  return {
    outcomes: [
      { count: firstWins + ties / 2, terms: [...term(first), ...advantage] },
      { count: secondWins + ties / 2, terms: term(second) },
    ],
  };
}

function bestLogLikelihood(counts: readonly number[]): number {
  const total = counts.reduce((sum, count) => sum + count, 0);
  return counts.reduce((sum, count) => sum + (count > 0 ? count * Math.log(count / total) : 0), 0);
}
