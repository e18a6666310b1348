import type { SeatFacts } from './facts';

/** Who takes part in the talk: all who read, but readers. */
export function mayDiscuss(seat: SeatFacts): boolean {
  return seat.owner || seat.kind !== 'none' || seat.picks || seat.organises;
}
