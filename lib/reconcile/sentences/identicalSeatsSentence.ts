import type { IdenticalSeats } from '../seats/identicalSeats';
import { capitalised, listed, nameOf, type Names } from './readings';

/** "The breeder and the mentor gave the same score in 80 of 96 cells, where about 36 are to be expected in this panel: have they heard each other? …" */
export function identicalSeatsSentence(
  { seats, cells, alike, expected, modelled }: IdenticalSeats,
  names: Names,
): string {
  const both = listed(seats.map((seat) => nameOf(names, seat)));
  return `${capitalised(both)} gave the same score in ${alike} of ${cells} cells, where about ${Math.round(expected * cells)} are to be expected in this panel. They may see alike, or have heard each other. ${modelled ? 'The order takes what they have in common as one opinion' : 'The order does not allow for it'}; what it is without each of them stands under “How far this order holds”.`;
}
