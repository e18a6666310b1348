import { closeCallThresholds, type CloseCallThresholds } from './slotResults';
import type { SlotResult } from './reconciliation';

/** Where the second looks of one slot stand. */
export type LookVerdict = {
  readonly slot: string;
  /** Settled: nothing more to look at. Equal: the agreed batches are used up and no puppy stands clear. */
  readonly kind: 'settled' | 'equalOnStructure' | 'goOn';
  /** The most probable puppy and its chance; null when nobody is eligible. */
  readonly favoured: { readonly puppy: string; readonly probability: number } | null;
  /** Who is still in question: two or more unless settled. */
  readonly candidates: readonly string[];
  readonly batches: { readonly used: number; readonly agreed: number };
};

/**
 * The stop rule of second looks: stop when the best eligible puppy has P ≥ 0.80, or when the agreed number of batches is used. Then the candidates are
 * equal on structure as far as this panel can tell, which is a usual result: the pick is decided on other grounds.
 * @param batches revealed batches of this slot, and how many the plan of the day allows.
 */
export function lookVerdict(
  slot: SlotResult,
  batches: LookVerdict['batches'],
  { closeBelow }: Pick<CloseCallThresholds, 'closeBelow'> = closeCallThresholds,
): LookVerdict {
  const [favoured = null] = slot.chances;
  const settled = favoured === null || favoured.probability >= closeBelow;
  return {
    slot: slot.key,
    kind: settled ? 'settled' : batches.used >= batches.agreed ? 'equalOnStructure' : 'goOn',
    favoured: favoured && { puppy: favoured.puppy, probability: favoured.probability },
    candidates: settled ? [] : slot.candidates.map(({ puppy }) => puppy),
    batches: { used: batches.used, agreed: batches.agreed },
  };
}
