import type { EvaluationView, PuppyFace, SeatFace, SlotView } from '#lib/contract/evaluationView';
import type { Criterion } from '#lib/sheet/criterion';

/** Names and faces for the ids a result is made of. */
export type Faces = {
  puppy(id: string): PuppyFace | undefined;
  puppyName(id: string): string;
  /** Undefined for null, too: an anonymous panel names no seat. */
  seat(id: string | null): SeatFace | undefined;
  /** "the mentor" without the article: the label its owner gave it. */
  seatLabel(id: string | null): string;
  criterion(key: string): Criterion | undefined;
  criterionName(key: string): string;
  slot(id: string): SlotView | undefined;
  /** Place in the pick order, from 1; 0 for a slot that is not there. */
  place(slotId: string): number;
};

export function facesOf(evaluation: EvaluationView): Faces {
  const puppies = new Map(evaluation.puppies.map((puppy) => [puppy.id, puppy]));
  const seats = new Map(evaluation.seats.map((seat) => [seat.id, seat]));
  const criteria = new Map(evaluation.sheet.criteria.map((criterion) => [criterion.key, criterion]));
  return {
    puppy: (id) => puppies.get(id),
    puppyName: (id) => puppies.get(id)?.name ?? 'a puppy no longer listed',
    seat: (id) => (id === null ? undefined : seats.get(id)),
    seatLabel: (id) => (id === null ? 'a seat' : (seats.get(id)?.label ?? 'a seat no longer listed')),
    criterion: (key) => criteria.get(key),
    criterionName: (key) => criteria.get(key)?.name ?? key,
    slot: (id) => evaluation.slots.find((slot) => slot.id === id),
    place: (slotId) => evaluation.slots.findIndex((slot) => slot.id === slotId) + 1,
  };
}
