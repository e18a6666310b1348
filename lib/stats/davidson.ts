import type { Undefined } from './coefficient';
import { comparisonAbilities, type ComparisonAbilities } from './comparisonAbilities';
import { fitChoices, type ChoiceRecord } from './comparisonModel';
import { comparedItems, comparisonFault, orderedPairs, type PairCounts } from './pairedComparisons';

export type Davidson = ComparisonAbilities & {
  /** log ν: how readily items of equal worth are called a tie. */
  readonly logNu: { readonly value: number; readonly se: number };
  /** Σ count · log probability, no multinomial constants. */
  readonly logLikelihood: number;
};

/**
 * Davidson's model of comparisons with ties: first : second : tie = w₁ : w₂ : ν √(w₁ w₂); ability = log w.
 * Undefined as `bradleyTerry`, and when there is no tie (ν is 0: use `bradleyTerry`) or nothing but ties.
 * Source: Davidson 1970. Worked example: two items, 3 wins, 1 loss, 2 ties: difference log 3, ν = 2 / √3.
 */
export function davidson(pairs: readonly PairCounts[]): Davidson | Undefined {
  const items = comparedItems(pairs);
  if (items.length < 2) return { undefined: 'fewer than two items' };
  const fault = comparisonFault(pairs);
  if (fault !== null) return { undefined: fault };
  if (pairs.every(({ ties }) => ties === 0)) return { undefined: 'no ties' };
  if (pairs.every(({ firstWins, secondWins }) => firstWins + secondWins === 0)) return { undefined: 'only ties' };
  const size = items.length;
  const fit = fitChoices(orderedPairs(pairs).map((pair) => asChoice(pair, items)), size);
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
  const term = (item: string, weight: number): (readonly [number, number])[] => (items.indexOf(item) === 0 ? [] : [[items.indexOf(item) - 1, weight]]);
  return {
    outcomes: [
      { count: firstWins, terms: term(first, 1) },
      { count: secondWins, terms: term(second, 1) },
      { count: ties, terms: [...term(first, 0.5), ...term(second, 0.5), [items.length - 1, 1]] },
    ],
  };
}
