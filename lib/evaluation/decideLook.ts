import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, SeatFacts, Viewer } from './facts';

export type LookQuestion = { readonly slotId: string; readonly firstPuppyId: string; readonly secondPuppyId: string };

/** The owner or a table leader opens a live look at two puppies that the slot could take; one look at a time. */
export function decideOpenLook(facts: EvaluationFacts, viewer: Viewer, look: LookQuestion & { readonly anotherOpen: boolean }): DomainErrorCode | null {
  if (!viewer.owner && !viewer.leads) return 'not-allowed';
  if (facts.phase !== 'deciding') return 'wrong-phase';
  const slot = facts.slots.find((one) => one.id === look.slotId);
  const pair = [look.firstPuppyId, look.secondPuppyId].map((id) => facts.puppies.find((puppy) => puppy.id === id));
  if (!slot || pair.some((puppy) => !puppy)) return 'not-found';
  if (look.firstPuppyId === look.secondPuppyId) return 'bad-input';
  if (look.anotherOpen) return 'still-open';
  const fits = pair.every((puppy) => puppy && !puppy.withdrawn && (slot.sex === 'any' || puppy.sex === slot.sex));
  return fits ? null : 'not-eligible';
}

/** A live look is answered by seats that see the table; not by the taker of the slot who has declared an interest. */
export function mayAnswerLook(facts: EvaluationFacts, seat: SeatFacts, slotId: string): boolean {
  const slot = facts.slots.find((one) => one.id === slotId);
  const interested = !seat.owner && seat.interest !== '' && slot?.seatId === seat.id;
  return (seat.kind === 'hands' || seat.kind === 'live') && !interested;
}
