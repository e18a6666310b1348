import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, SeatFacts } from './facts';

/** Two showings whose cards are to change places: after a collar swap each was scored as the other puppy. */
export type CardMove = { readonly from: string; readonly to: string };

/** Whether a seat may let two of its own cards change places now: before its lock, in an open round about the whole sheet. */
export function decideCardMove({ round, puppies }: EvaluationFacts, seat: SeatFacts, { from, to }: CardMove): DomainErrorCode | null {
  if (seat.kind === 'none') return 'not-allowed';
  if (round?.state !== 'open' || round.cells !== null || seat.lockedAt !== null) return 'wrong-phase';
  const [one, other] = [from, to].map((id) => round.showings.find((showing) => showing.id === id)?.puppyId);
  if (one === undefined || other === undefined) return 'not-found';
  if (one === other) return 'bad-input';
  return puppies.some((puppy) => puppy.withdrawn && (puppy.id === one || puppy.id === other)) ? 'not-eligible' : null;
}
