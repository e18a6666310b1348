import type { BoardMerit } from '../_parts/MeritPicture';

/** What the plain mean does when it puts the same puppy first: the whole order, or only its head. */
export function plainOrderWords(merit: readonly BoardMerit[]): string {
  const meant = merit.flatMap(({ puppy, mean }) => (mean === null ? [] : [{ puppy, mean }]));
  if (meant.length < merit.length) return 'The plain mean leaves out puppies that no seat judged.';
  const same = meant.every(({ mean }, at) => at === 0 || mean <= (meant[at - 1]?.mean ?? Infinity));
  return same ? 'The plain mean puts the puppies in the same order.' : 'The plain mean puts the same puppy first; further down its order differs.';
}
