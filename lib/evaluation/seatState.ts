import type { SeatFacts } from './facts';
import type { SeatState } from './phase';

/** A seat's place in the newest round: invited until a device holds it, locked once its card is. */
export function seatState(seat: SeatFacts): SeatState {
  if (seat.lockedAt !== null) return 'locked';
  return seat.joined ? 'joined' : 'invited';
}
