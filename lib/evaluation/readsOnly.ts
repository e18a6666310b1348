import type { SeatFacts } from './facts';
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
