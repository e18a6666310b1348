import type { SeatInput } from '../contract/setup';

/** Organising and reading are for those who do not score: whoever prepares sees the weights, and has her hand in the order. */
export function rightsFit({ kind, organises, reads }: Pick<SeatInput, 'kind' | 'organises' | 'reads'>): boolean {
  return kind === 'none' || (organises !== true && reads !== true);
}
