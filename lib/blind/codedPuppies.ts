import type { PuppyFace } from '../contract/evaluationView';
import { createSeededRandom, seedFromNumbers } from '../stats/seededRandom';

const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/**
 * The litter as one seat sees it by code: a letter each in an order drawn for this seat, so that two seats' letters do not go together and none tells of
 * the order in which the puppies were entered. Sex stays, since checks and places ask for it; name, collar and marks go.
 *
 * @param seatId drawn at random by the server when the seat was made: the draw rests on it
 */
export function codedPuppies(puppies: readonly PuppyFace[], seatId: string): PuppyFace[] {
  const random = createSeededRandom(seedFromNumbers([...seatId].map((digit) => digit.charCodeAt(0))));
  const drawn = puppies.map((puppy) => ({ puppy, rank: random.uniform() })).sort((one, other) => one.rank - other.rank);
  return drawn.map(({ puppy }, at) => ({ id: puppy.id, name: codeAt(at), sex: puppy.sex, collar: 'none', secondMark: '', withdrawn: puppy.withdrawn }));
}

function codeAt(at: number): string {
  const round = Math.floor(at / letters.length);
  return `Puppy ${letters[at % letters.length] ?? ''}${round === 0 ? '' : String(round + 1)}`;
}

/** Words of the record for a viewer who sees codes: what names a puppy is left out. */
export function withoutNames(words: string, puppies: readonly PuppyFace[]): string {
  return puppies.some(({ name }) => words.includes(name)) ? '' : words;
}
