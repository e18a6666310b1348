import type { Decision, Hold } from '../contract/decisionView';
import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, Viewer } from './facts';

/** A null puppy leaves the place empty: nobody fits, or its taker waives it. */
export type PickQuestion = { readonly slotId: string; readonly puppyId: string | null };
type Standing = { readonly decisions: readonly Decision[]; readonly holds: readonly Hold[] };

/** The first slot without a decision: picks are made in order. Null when all are made. */
export function nextSlotId(facts: EvaluationFacts, decisions: readonly Decision[]): string | null {
  return facts.slots.find((slot) => !decisions.some((decision) => decision.slotId === slot.id))?.id ?? null;
}

/** The owner may enter any pick; a seat with a right to pick its own slot. */
export function mayPick(facts: EvaluationFacts, viewer: Viewer, slotId: string): boolean {
  const slot = facts.slots.find((one) => one.id === slotId);
  const seat = facts.seats.find((one) => one.id === viewer.seatId);
  return viewer.owner || (seat?.picks === true && slot?.seatId === seat.id);
}

/** Whether this puppy may be picked for this slot now; standing holds exclude from show or breeding keeps only (SA1). */
export function decidePick(facts: EvaluationFacts, question: PickQuestion, { decisions, holds }: Standing): DomainErrorCode | null {
  if (facts.phase !== 'deciding') return 'wrong-phase';
  if (facts.round?.state !== 'revealed') return 'still-open';
  const slot = facts.slots.find((one) => one.id === question.slotId);
  if (!slot) return 'not-found';
  if (nextSlotId(facts, decisions) !== slot.id) return 'wrong-phase';
  if (question.puppyId === null) return null;
  const puppy = facts.puppies.find((one) => one.id === question.puppyId);
  if (!puppy) return 'not-found';
  const taken = decisions.some((decision) => decision.puppyId === puppy.id);
  if (puppy.withdrawn || taken || (slot.sex !== 'any' && slot.sex !== puppy.sex)) return 'not-eligible';
  const held = holds.some((hold) => hold.puppyId === puppy.id && !hold.cleared);
  return slot.purpose === 'keep' && held ? 'on-hold' : null;
}

export function decideSeal(facts: EvaluationFacts, decisions: readonly Decision[]): DomainErrorCode | null {
  if (facts.phase !== 'deciding') return 'wrong-phase';
  if (facts.round?.state !== 'revealed') return 'still-open';
  return nextSlotId(facts, decisions) === null ? null : 'still-open';
}
