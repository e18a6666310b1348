import type { EvaluationFacts, SeatFacts } from './facts';

/** A seat's device holds that seat and no other; the owner's devices hold her own seat in every evaluation. */
type Holder = { readonly owner: boolean; readonly seatId: string | null };

/** The seat that a device holds in one evaluation; null when it holds none there. */
export function seatOf({ seats }: EvaluationFacts, { owner, seatId }: Holder): SeatFacts | null {
  return seats.find((seat) => (owner ? seat.owner : seat.id === seatId)) ?? null;
}
