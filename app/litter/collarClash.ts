import type { PuppyInput } from '#lib/contract/litter';
import { collarWords, listWords } from '../_parts/textWords';

type Marked = Pick<PuppyInput, 'name' | 'collar' | 'secondMark'>;

/** A sentence for each collar worn by several puppies of which one has no second mark: they cannot be told apart at the table. */
export function collarClash(puppies: readonly Marked[]): string[] {
  return [...new Set(puppies.map(({ collar }) => collar))].flatMap((collar) => {
    const alike = puppies.filter((puppy) => puppy.collar === collar);
    const unmarked = alike.filter((puppy) => puppy.secondMark.trim() === '');
    if (alike.length < 2 || unmarked.length === 0) return [];
    const names = listWords(alike.map(({ name }) => name));
    return [
      `${names} ${alike.length === 2 ? 'both' : 'all'} come with ${collarWords(collar)}. Give each a second mark, or they cannot be told apart.`,
    ];
  });
}
