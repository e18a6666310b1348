import type { Decision, Hold, Unexamined } from '../contract/decisionView';
import type { PuppyFace, SlotView } from '../contract/evaluationView';
import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, SeatFacts, Viewer } from './facts';
import { toldAtOnce } from './toldAtOnce';

/** A null puppy leaves the place empty: nobody fits, or its taker waives it. */
type PickQuestion = {
  readonly slotId: string;
  readonly puppyId: string | null;
  /** Checks that nobody made on the puppy, as far as the picker was told. */
  readonly unexamined: readonly string[];
};
type Standing = {
  readonly decisions: readonly Decision[];
  readonly holds: readonly Hold[];
  readonly unexamined: readonly Unexamined[];
};

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

/**
 * Whether this puppy may be picked for this slot now; standing holds exclude from show or breeding keeps only, which also
 * name every check that nobody made (SA1).
 */
export function decidePick(
  facts: EvaluationFacts,
  question: PickQuestion,
  { decisions, holds, unexamined }: Standing,
): DomainErrorCode | null {
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
  if (slot.purpose !== 'keep') return null;
  if (holds.some((hold) => hold.puppyId === puppy.id && hold.stands)) return 'on-hold';
  const open = unexamined.find(({ puppyId }) => puppyId === puppy.id)?.checks ?? [];
  return open.every((check) => question.unexamined.includes(check)) ? null : 'unexamined';
}

/** A decision and its reason are told to all at once, so none is made, cleared for or taken back while a round or a look is open. */
export function mayDecideNow(facts: EvaluationFacts): DomainErrorCode | null {
  if (facts.imported !== null) return 'imported';
  if (facts.phase !== 'deciding') return 'wrong-phase';
  return toldAtOnce(facts) ? null : 'still-open';
}

/**
 * Sealing waits for open looks as well: their answers would come into a record that no longer changes. A keep that was picked
 * before a veterinary answer put its hold back is taken back first (SA1).
 */
export function decideSeal(
  facts: EvaluationFacts,
  { decisions, holds }: Pick<Standing, 'decisions' | 'holds'>,
): DomainErrorCode | null {
  const fault = mayDecideNow(facts);
  if (fault) return fault;
  if (nextSlotId(facts, decisions) !== null) return 'still-open';
  return heldKeeps(facts, { decisions, holds }).length === 0 ? null : 'on-hold';
}

/** Places of a show or breeding keep whose pick is held by now: its hold came back after the pick. */
export function heldKeeps(
  { slots }: Pick<EvaluationFacts, 'slots'>,
  { decisions, holds }: Pick<Standing, 'decisions' | 'holds'>,
): string[] {
  const held = new Set(holds.filter(({ stands }) => stands).map(({ puppyId }) => puppyId));
  return slots
    .filter(
      (slot) =>
        slot.purpose === 'keep' &&
        decisions.some(({ slotId, puppyId }) => slotId === slot.id && puppyId !== null && held.has(puppyId)),
    )
    .map(({ id }) => id);
}

/**
 * Puppies a slot may take: its sex, not withdrawn, and for a show or breeding keep without a standing hold (SA1: holds
 * keep a puppy out of those slots only). Earlier picks are not subtracted here.
 */
export function slotEligibility(
  slot: SlotView,
  puppies: readonly PuppyFace[],
  held: ReadonlySet<string>,
): readonly string[] {
  return puppies
    .filter((puppy) => !puppy.withdrawn)
    .filter((puppy) => slot.sex === 'any' || slot.sex === puppy.sex)
    .filter((puppy) => slot.purpose !== 'keep' || !held.has(puppy.id))
    .map((puppy) => puppy.id);
}

/**
 * The pick order as its parties agree to it: every term of every place in order, with the label of the seat that takes
 * it. Two orders have the same wording only when nothing that was agreed differs; ids are not part of it.
 */
export function pickOrderWording({ slots, seats }: Pick<EvaluationFacts, 'slots' | 'seats'>): string {
  const label = (id: string | null) => seats.find((seat) => seat.id === id)?.label ?? null;
  return JSON.stringify(
    slots.map((slot) => [
      slot.taker,
      label(slot.seatId),
      slot.purpose,
      slot.sex,
      slot.condition,
      slot.byWhen,
      slot.ifFails,
    ]),
  );
}

/** Who has to agree to the pick order: every seat that picks, save the owner's, who wrote it. */
export function partiesOf({ seats }: Pick<EvaluationFacts, 'seats'>): readonly SeatFacts[] {
  return seats.filter((seat) => seat.picks && !seat.owner);
}

/** Parties that have not confirmed the order as it is worded now. */
export function unconfirmedParties(facts: EvaluationFacts): readonly SeatFacts[] {
  return partiesOf(facts).filter((seat) => !facts.confirmedSeatIds.includes(seat.id));
}
