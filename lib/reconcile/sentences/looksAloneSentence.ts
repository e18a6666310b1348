import type { LooksAlone } from '../looks/looksAlone';
import { capitalised, listed, nameOf, type Names } from './readings';

/**
 * What second looks cannot say by themselves: "Second looks have not compared Fern and Moss with Sorrel, directly or through others: between
 * these only the scores speak." Null when they link all puppies in question, or when there is nothing to compare.
 */
export function looksAloneSentence({ groups }: LooksAlone, names: Names): string | null {
  if (groups.length < 2) return null;
  const parts = groups.map((group) => listed(group.map((puppy) => nameOf(names, puppy))));
  if (groups.every((group) => group.length === 1))
    return `No second look has compared any of ${listed(parts)}: between these only the scores speak.`;
  const [first = '', ...others] = parts;
  return capitalised(
    `second looks have not compared ${first} with ${others.join(', nor with ')}, directly or through others: between these only the scores speak.`,
  );
}
