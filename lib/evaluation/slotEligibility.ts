import type { PuppyFace, SlotView } from '../contract/evaluationView';

/**
 * Puppies a slot may take: its sex, not withdrawn, and for a show or breeding keep without a standing hold (SA1: holds
 * keep a puppy out of those slots only). Earlier picks are not subtracted here.
 */
export function slotEligibility(slot: SlotView, puppies: readonly PuppyFace[], held: ReadonlySet<string>): readonly string[] {
  return puppies
    .filter((puppy) => !puppy.withdrawn)
    .filter((puppy) => slot.sex === 'any' || slot.sex === puppy.sex)
    .filter((puppy) => slot.purpose !== 'keep' || !held.has(puppy.id))
    .map((puppy) => puppy.id);
}
