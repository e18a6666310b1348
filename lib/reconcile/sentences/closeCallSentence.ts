import type { SlotResult } from '../merit/reconciliation';
import { capitalised, listed, nameOf, readings, type Names } from './readings';

/** What a slot's chances amount to: "Too close to call between Fern (60 of 100 readings), Moss (31) and Sorrel (5)." */
export function closeCallSentence(slot: SlotResult, names: Names): string {
  const [first] = slot.chances;
  if (!first) return 'No eligible puppy is left for this place.';
  if (slot.chances.length === 1)
    return `${capitalised(nameOf(names, first.puppy))} is the only puppy eligible for this place.`;
  if (!slot.close) {
    return `${capitalised(nameOf(names, first.puppy))} is the best of those eligible in ${readings(first.probability, slot.closeBelow)} of 100 readings of these scores.`;
  }
  const candidates = slot.candidates.map(
    ({ puppy, probability }, at) =>
      `${nameOf(names, puppy)} (${readings(probability, slot.closeBelow)}${at === 0 ? ' of 100 readings' : ''})`,
  );
  return `Too close to call between ${listed(candidates)}.`;
}
