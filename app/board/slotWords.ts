import type { SlotView } from '#lib/contract/evaluationView';
import { slotTerms } from './slotTerms';

/** A place in one line: who takes it, what for, and on what terms. */
export function slotWords(slot: SlotView): string {
  return `${slot.taker}: ${slotTerms(slot)}`;
}
