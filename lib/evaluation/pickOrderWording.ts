import type { EvaluationFacts } from './facts';

/**
 * The pick order as its parties agree to it: every term of every place in order, with the label of the seat that takes
 * it. Two orders have the same wording only when nothing that was agreed differs; ids are not part of it.
 */
export function pickOrderWording({ slots, seats }: Pick<EvaluationFacts, 'slots' | 'seats'>): string {
  const label = (id: string | null) => seats.find((seat) => seat.id === id)?.label ?? null;
  return JSON.stringify(slots.map((slot) => [slot.taker, label(slot.seatId), slot.purpose, slot.sex, slot.condition, slot.byWhen, slot.ifFails]));
}
