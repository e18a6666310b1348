import { bradleyTerry } from '#lib/stats/bradleyTerry';
import { isUndefined, type Undefined } from '#lib/stats/coefficient';
import type { Ability } from '#lib/stats/comparisonAbilities';
import { davidson } from '#lib/stats/davidson';
import type { PairCounts } from '#lib/stats/pairedComparisons';
import type { LookAnswer } from '../panel/panel';

/** What the second looks say without the scores, all answers of all seats counted alike. */
export type LooksAlone = {
  /** Puppies that looks link, directly or through others; one group when all are linked. A puppy nobody looked at stands alone. */
  readonly groups: readonly (readonly string[])[];
  /** Log worths summing to zero, best first; or why looks alone give no order ("items not connected", "an item always or never wins"). */
  readonly abilities: readonly Ability[] | Undefined;
};

/**
 * Bradley and Terry's model of the looks at these puppies, with Davidson's ties where there are any. Merit does not rest on it: there the scores
 * speak too, and each seat's liking is allowed for. Looks that do not link the puppies leave their order to the scores alone.
 */
export function looksAlone(puppies: readonly string[], looks: readonly LookAnswer[]): LooksAlone {
  const among = looks.filter(({ first, second }) => puppies.includes(first) && puppies.includes(second));
  const groups = linkedGroups(puppies, among);
  if (puppies.length < 2) return { groups, abilities: { undefined: 'fewer than two items' } };
  if (groups.length > 1) return { groups, abilities: { undefined: 'items not connected' } };
  const counts = countedPairs(among);
  const fit = counts.some(({ ties }) => ties > 0) ? davidson(counts) : bradleyTerry(counts);
  return { groups, abilities: isUndefined(fit) ? fit : fit.centred.toSorted((a, b) => b.ability - a.ability) };
}

/** In the order of `puppies`, groups by their first puppy. */
function linkedGroups(puppies: readonly string[], looks: readonly LookAnswer[]): string[][] {
  const groupOf = new Map(puppies.map((puppy) => [puppy, puppy]));
  for (const { first, second } of looks) {
    const [one, other] = [groupOf.get(first), groupOf.get(second)];
    for (const puppy of puppies) if (groupOf.get(puppy) === other && one !== undefined) groupOf.set(puppy, one);
  }
  const groups = new Map<string, string[]>();
  for (const puppy of puppies) {
    const key = groupOf.get(puppy) ?? puppy;
    groups.set(key, [...(groups.get(key) ?? []), puppy]);
  }
  return [...groups.values()];
}

function countedPairs(looks: readonly LookAnswer[]): PairCounts[] {
  const counts = new Map<string, PairCounts>();
  for (const look of looks) {
    const [first, second] = look.first < look.second ? [look.first, look.second] : [look.second, look.first];
    const winner = look.choice === 'tie' ? null : look.choice === 'first' ? look.first : look.second;
    const key = JSON.stringify([first, second]);
    const known = counts.get(key) ?? { first, second, firstWins: 0, secondWins: 0, ties: 0 };
    counts.set(key, {
      first,
      second,
      firstWins: known.firstWins + (winner === first ? 1 : 0),
      secondWins: known.secondWins + (winner === second ? 1 : 0),
      ties: known.ties + (winner === null ? 1 : 0),
    });
  }
  return [...counts.values()];
}
