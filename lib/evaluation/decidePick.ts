import type { Decision, Hold } from '../contract/decisionView';
import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, Viewer } from './facts';
import { toldAtOnce } from './toldAtOnce';

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
  const early = mayDecideNow(facts);
  if (early) return early;
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

/** A decision and its reason are told to all at once, so none is made, cleared for or taken back while a round or a look is open. */
export function mayDecideNow(facts: EvaluationFacts): DomainErrorCode | null {
  if (facts.phase !== 'deciding') return 'wrong-phase';
  return toldAtOnce(facts) ? null : 'still-open';
}

/** Sealing waits for open looks as well: their answers would come into a record that no longer changes. */
export function decideSeal(facts: EvaluationFacts, decisions: readonly Decision[]): DomainErrorCode | null {
  const fault = mayDecideNow(facts);
  if (fault) return fault;
  return nextSlotId(facts, decisions) === null ? null : 'still-open';
}
