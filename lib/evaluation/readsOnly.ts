import type { EvaluationFacts, SeatFacts, Viewer } from './facts';
import type { RoundState } from './phase';

/**
 * BL9: until a round or a second look is revealed, a device of a reissued seat reads only what it made itself there;
 * returns its id then, else null for all. Whoever holds the new link may not be who scored or answered before.
 *
 * @param state of the round or look that is read
 */
export function readsOnly(state: RoundState, seat: SeatFacts, deviceId: string): string | null {
  return seat.issued > 1 && state !== 'revealed' ? deviceId : null;
}

/**
 * Whose marks, notes and hands a viewer reads as its own: its seat's, and of those not told yet only what its own device made
 * where the seat was reissued.
 */
export function markReader({ seats }: Pick<EvaluationFacts, 'seats'>, { seatId }: Pick<Viewer, 'seatId'>, deviceId: string): { readonly seatId: string | null; readonly onlyDevice: string | null } {
  const seat = seats.find((one) => one.id === seatId);
  return { seatId: seat?.id ?? null, onlyDevice: seat ? readsOnly('open', seat, deviceId) : null };
}
