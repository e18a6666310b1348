import type { SlotResult } from './PlaceCard';
import type { Revealed } from './useRevealed';

/** Close calls that are still to be picked, in pick order. */
export function openCloseCalls({ board, decision }: Pick<Revealed, 'board' | 'decision'>): SlotResult[] {
  const picked = new Set(decision.decisions.map(({ slotId }) => slotId));
  return board.slots.filter((slot) => slot.close && !picked.has(slot.slotId));
}
