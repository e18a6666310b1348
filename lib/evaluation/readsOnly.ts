import type { EvaluationFacts, SeatFacts } from './facts';

/**
 * BL9: before reveal a device of a reissued seat reads only what it made itself; returns its id then, else null for all.
 * Whoever holds the new link may not be who scored before.
 */
export function readsOnly(facts: EvaluationFacts, seat: SeatFacts, deviceId: string): string | null {
  return seat.issued > 1 && facts.round?.state !== 'revealed' ? deviceId : null;
}
