import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, SeatFacts, Viewer } from './facts';

/** Each rule answers why not, or null for yes. */
type Verdict = DomainErrorCode | null;

const scores = (seat: SeatFacts) => seat.kind !== 'none';

export function decideOpenRound(facts: EvaluationFacts): Verdict {
  if (facts.phase !== 'preparing') return 'wrong-phase';
  const anyone = facts.seats.some(scores);
  const anything = facts.puppies.some((puppy) => !puppy.withdrawn);
  return anyone && anything ? null : 'bad-input';
}

/** The owner closes and reveals only with her own card locked: nobody who can still score may choose the moment. */
function ownCardOpen(facts: EvaluationFacts): boolean {
  return facts.seats.some((seat) => seat.owner && scores(seat) && seat.lockedAt === null);
}

export function decideClose(facts: EvaluationFacts): Verdict {
  if (facts.round?.state !== 'open') return 'wrong-phase';
  return ownCardOpen(facts) ? 'own-card-open' : null;
}

/** BL7: only before reveal; every lock is void then. */
export function decideReopen(facts: EvaluationFacts): Verdict {
  return facts.round?.state === 'closed' ? null : 'wrong-phase';
}

export function decideReveal(facts: EvaluationFacts): Verdict {
  if (facts.round?.state === 'open') return 'still-open';
  if (facts.round?.state !== 'closed') return 'wrong-phase';
  return ownCardOpen(facts) ? 'own-card-open' : null;
}

export function decideLock(facts: EvaluationFacts, seatId: string): Verdict {
  const seat = facts.seats.find((one) => one.id === seatId);
  if (!seat || !scores(seat)) return 'not-allowed';
  if (facts.round?.state !== 'open') return 'wrong-phase';
  return seat.lockedAt === null ? null : 'wrong-phase';
}

/** True when the lock just made was the last one awaited: the round closes with it. */
export function everySeatLocked(facts: EvaluationFacts): boolean {
  return facts.seats.filter(scores).every((seat) => seat.lockedAt !== null);
}

export function decideMoveTable(facts: EvaluationFacts, viewer: Viewer, showingId: string): Verdict {
  if (!viewer.owner && !viewer.leads) return 'not-allowed';
  if (facts.round?.state !== 'open' || facts.round.medium !== 'table') return 'wrong-phase';
  return facts.round.showings.some((one) => one.id === showingId) ? null : 'not-found';
}
