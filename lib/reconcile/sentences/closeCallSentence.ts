import type { SlotResult } from '../reconciliation';
import { readings } from './readings';

/** What the scores say of one place in the pick order. */
export function closeCallSentence(slot: SlotResult, names: Readonly<Record<string, string>>): string {
  const [leader] = slot.chances;
  if (!leader) return 'No puppy may take this place as things stand.';
  const name = names[leader.puppy] ?? leader.puppy;
  if (slot.chances.length === 1) return `${name} is the only puppy that may take this place.`;
  const chance = `${name} is the best for this place in ${readings(leader.probability)} readings of these scores`;
  return slot.close ? `${chance}: a close call.` : `${chance}.`;
}
