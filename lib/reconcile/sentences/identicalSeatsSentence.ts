import type { IdenticalSeats } from '../identicalSeats';
import { capitalised, listed, nameOf, type Names } from './readings';

/** "The breeder and the mentor gave the same score in 80 of 96 cells, where about 36 are to be expected in this panel: have they heard each other? …" */
export function identicalSeatsSentence({ seats, cells, alike, expected }: IdenticalSeats, names: Names): string {
  const both = listed(seats.map((seat) => nameOf(names, seat)));
  return `${capitalised(both)} gave the same score in ${alike} of ${cells} cells, where about ${Math.round(expected * cells)} are to be expected in this panel. They may see alike, or have heard each other; if so they count for little more than one: the order without each of them stands under “How far this order holds”.`;
}
