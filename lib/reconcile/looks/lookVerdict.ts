import type { SlotResult } from '../merit/reconciliation';

/** Where the second looks of one slot stand. */
export type LookVerdict = {
  readonly slot: string;
  /**
   * Settled: one puppy stands clear. Equal within half: the candidates hardly differ, and that is known. Not settled: the agreed batches are used
   * and neither is known. Only "go on" asks for more looks.
   */
  readonly kind: 'settled' | 'equalWithinHalf' | 'notSettled' | 'goOn';
  /** The likeliest puppy and, where there is one, the next; best first. Empty when nobody is eligible. */
  readonly leading: readonly Chance[];
  /** Who is still in question: two or more unless settled. */
  readonly candidates: readonly string[];
  /** Chance that the candidates lie within half a step of each other, and that half step in points. */
  readonly alike: number;
  readonly halfStep: number;
  /** The chance from which the place is settled. */
  readonly closeBelow: number;
  readonly batches: { readonly used: number; readonly agreed: number };
};

type Chance = SlotResult['chances'][number];

/** How sure it has to be that the candidates are alike before that is said. */
const ALIKE_FROM = 0.8;

/**
 * The stop rule of second looks: stop when one eligible puppy has the chance its place asks for; or when the candidates lie within half a step of
 * each other with P ≥ 0.80, so that further looks could not matter; or when the agreed number of batches is used, settled or not.
 * @param batches revealed batches of this slot, and how many the plan of the day allows.
 */
export function lookVerdict(slot: SlotResult, batches: LookVerdict['batches']): LookVerdict {
  const { alike, halfStep, closeBelow } = slot;
  return {
    slot: slot.key,
    kind: kindOf(slot, batches),
    leading: slot.chances.slice(0, 2),
    alike,
    halfStep,
    closeBelow,
    candidates: slot.close ? slot.candidates.map(({ puppy }) => puppy) : [],
    batches: { used: batches.used, agreed: batches.agreed },
  };
}

function kindOf({ close, alike }: SlotResult, { used, agreed }: LookVerdict['batches']): LookVerdict['kind'] {
  if (!close) return 'settled';
  if (alike >= ALIKE_FROM) return 'equalWithinHalf';
  return used >= agreed ? 'notSettled' : 'goOn';
}
