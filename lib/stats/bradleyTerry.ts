import type { Undefined } from './coefficient';
import { comparisonAbilities, type ComparisonAbilities } from './comparisonAbilities';
import { fitChoices, type ChoiceRecord } from './comparisonModel';
import { comparedItems, comparisonFault, orderedPairs, type PairCounts } from './pairedComparisons';

/** A fit of the Bradley–Terry model: abilities in log odds, and how well they account for the wins. */
export type BradleyTerry = ComparisonAbilities & {
  /** Σ wins · log probability, no binomial coefficients. */
  readonly logLikelihood: number;
  readonly deviance: { readonly value: number; readonly df: number };
  /** Log odds added for the item with the advantage of place; null when no record has one. */
  readonly place: { readonly value: number; readonly se: number } | null;
};

/**
 * The Bradley–Terry model of paired comparisons.
 *
 * Model: item i has ability λ_i; when i meets j, in independent trials,
 *   log(P(i wins) / P(j wins)) = λ_i − λ_j + γ z,
 * with z = 1 when i had the advantage of place, −1 when j had it, else 0; γ is fitted only where a record says so.
 * A tie counts as half a win each (for a model of ties see `davidson`). λ and γ by maximum likelihood
 * (`fitChoices`); deviance = 2 (saturated − reached log-likelihood) on (pairs met − parameters) degrees of
 * freedom.
 *
 * In: counts by pair; names in any order. Out: log odds; log 3 above another is three wins in four.
 * Undefined with fewer than two items, with items that comparisons do not connect, or with an item (or a group) that
 * always or never wins against the rest: then no finite estimate exists.
 *
 * Source: Bradley & Terry 1952, Rank analysis of incomplete block designs; Ford 1957 (existence); Agresti 2002,
 * Categorical Data Analysis (place).
 *
 * @example a beats b three times in four: log 3 apart, with variance 1 / (4 · ¾ · ¼).
 * const fit = bradleyTerry([{ first: 'a', second: 'b', firstWins: 3, secondWins: 1, ties: 0 }])
 * fit.centred[0].ability // 0.5493
 * fit.differenceSe[0][1] // 1.1547
 * fit.deviance // { "value": 0, "df": 0 }
 * const never = [{ first: 'a', second: 'b', firstWins: 4, secondWins: 0, ties: 0 }]
 * bradleyTerry(never).undefined // "an item always or never wins"
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
  const saturated = played.reduce(
    (sum, { outcomes }) => sum + bestLogLikelihood(outcomes.map(({ count }) => count)),
    0,
  );
  const at = size - 1;
  return {
    ...comparisonAbilities(items, fit),
    logLikelihood: fit.logLikelihood,
    deviance: { value: 2 * (saturated - fit.logLikelihood), df: played.length - size },
    place: withPlace ? { value: fit.parameters[at] ?? 0, se: Math.sqrt(fit.covariance[at * size + at] ?? 0) } : null,
  };
}

function asChoice(
  { first, second, firstWins, secondWins, ties, place }: PairCounts,
  items: readonly string[],
): ChoiceRecord {
  const term = (item: string): (readonly [number, number])[] =>
    items.indexOf(item) === 0 ? [] : [[items.indexOf(item) - 1, 1]];
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
