import type { ViewerFace } from '../contract/evaluationView';
import type { SeatFacts } from './facts';

/** What a viewer may do, from the rights of its seat; `seat` null where the owner has none, or holds none in this evaluation. */
export function viewerOf(owner: boolean, seat: SeatFacts | null): ViewerFace {
  const organises = !owner && seat?.organises === true;
  return {
    owner,
    seatId: seat?.id ?? null,
    leads: owner || organises || seat?.leads === true,
    organises,
    reads: owner || (seat !== null && readsRevealed(seat)),
  };
}

/** Those who scored, those who pick or organise, and readers. A table person without a right reads nothing. */
function readsRevealed({ kind, picks, organises, reads }: SeatFacts): boolean {
  return kind !== 'none' || picks || organises || reads;
}
