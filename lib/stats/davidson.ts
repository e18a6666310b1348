import type { Undefined } from './coefficient';
import { comparisonAbilities, type ComparisonAbilities } from './comparisonAbilities';
import { fitChoices, type ChoiceRecord } from './comparisonModel';
import { comparedItems, comparisonFault, orderedPairs, type PairCounts } from './pairedComparisons';

/**
 * A fit of Davidson's model: abilities, how readily items are called a tie, and the log-likelihood it reached.
 */
export type Davidson = ComparisonAbilities & {
  /** log ν: how readily items of equal worth are called a tie. */
  readonly logNu: { readonly value: number; readonly se: number };
  /** Σ count · log probability, no multinomial constants. */
  readonly logLikelihood: number;
};

/**
 * Davidson's model of paired comparisons with ties.
 *
 * Model: item i has worth w_i > 0 and ability λ_i = log w_i. When i meets j, the chances of
 *   i wins : j wins : tie  =  w_i : w_j : ν √(w_i w_j),
 * so that of two items of equal worth a share ν / (2 + ν) of the meetings ends in a tie, and fewer the more they
 * differ. λ and log ν are fitted by maximum likelihood (`fitChoices`), which is concave in them.
 *
 * In: counts by pair; names in any order. Out: abilities in log odds, log ν with its standard error.
 * Undefined as `bradleyTerry`, and when there is no tie (ν would be 0: use `bradleyTerry`) or nothing but ties.
 *
 * Source: Davidson 1970, On extending the Bradley–Terry model to accommodate ties.
 *
 * @example 3 wins, 1 loss, 2 ties: the worths are as 3 to 1, and 2 = ν √3, so log ν = log(2 / √3).
 * const fit = davidson([{ first: 'a', second: 'b', firstWins: 3, secondWins: 1, ties: 2 }])
 * fit.againstFirst[1].ability // -1.0986
 * fit.logNu.value // 0.1438
 * fit.worth // [0.75, 0.25]
 * davidson([{ first: 'a', second: 'b', firstWins: 3, secondWins: 1, ties: 0 }]) // { "undefined": "no ties" }
 */
export function davidson(pairs: readonly PairCounts[]): Davidson | Undefined {
  const items = comparedItems(pairs);
  if (items.length < 2) return { undefined: 'fewer than two items' };
  const fault = comparisonFault(pairs);
  if (fault !== null) return { undefined: fault };
  if (pairs.every(({ ties }) => ties === 0)) return { undefined: 'no ties' };
  if (pairs.every(({ firstWins, secondWins }) => firstWins + secondWins === 0)) return { undefined: 'only ties' };
  const size = items.length;
  const fit = fitChoices(
    orderedPairs(pairs).map((pair) => asChoice(pair, items)),
    size,
  );
  // The likelihood is concave: it has no top only when some direction separates the outcomes (one pair, never a loss, say).
  if (fit === null) return { undefined: 'an item always or never wins' };
  const at = size - 1;
  return {
    ...comparisonAbilities(items, fit),
    logNu: { value: fit.parameters[at] ?? 0, se: Math.sqrt(fit.covariance[at * size + at] ?? 0) },
    logLikelihood: fit.logLikelihood,
  };
}

function asChoice({ first, second, firstWins, secondWins, ties }: PairCounts, items: readonly string[]): ChoiceRecord {
  const term = (item: string, weight: number): (readonly [number, number])[] =>
    items.indexOf(item) === 0 ? [] : [[items.indexOf(item) - 1, weight]];
  return {
    outcomes: [
      { count: firstWins, terms: term(first, 1) },
      { count: secondWins, terms: term(second, 1) },
      { count: ties, terms: [...term(first, 0.5), ...term(second, 0.5), [items.length - 1, 1]] },
    ],
  };
}
