import type { SeatFacts } from './facts';

/** Who takes part in the talk: all who read, but readers. */
export function mayDiscuss(seat: SeatFacts): boolean {
  return seat.owner || seat.kind !== 'none' || seat.picks || seat.organises;
}

/** Organising and reading are for those who do not score: whoever prepares sees the weights, and has her hand in the order. */
export function rightsFit({ kind, organises, reads }: Pick<SeatFacts, 'kind' | 'organises' | 'reads'>): boolean {
  return kind === 'none' || (!organises && !reads);
}
