import type { SlotView } from '#lib/contract/evaluationView';
import type { SlotInput } from '#lib/contract/setup';
import { purposeWords } from './textWords';

/** Which puppies a place is for. */
export const sexWords = { any: 'dog or bitch', dog: 'a dog', bitch: 'a bitch' } as const;

type Slot = Pick<SlotView, 'taker' | 'purpose' | 'sex' | 'condition' | 'byWhen' | 'ifFails'>;

/** A place in one line: who takes it, what for, and on what terms. */
export function slotWords(slot: Slot): string {
  return `${slot.taker}: ${slotTerms(slot)}`;
}

/** What a place is for and on what terms, in one line. */
export function slotTerms({ purpose, sex, condition, byWhen, ifFails }: Omit<Slot, 'taker'>): string {
  const terms = [
    purposeWords[purpose],
    sex === 'any' ? '' : sexWords[sex],
    condition,
    byWhen === '' ? '' : `by ${byWhen}`,
    ifFails === '' ? '' : `if it fails: ${ifFails}`,
  ];
  return terms.filter((one) => one !== '').join(' · ');
}

export type SlotSentences = { readonly lead: string; readonly terms: readonly string[] };

type Order = {
  readonly slots: readonly SlotInput[] /** The seat of the breeder; null when it is not known. */;
  readonly ownerSeatId: string | null;
};

/** One place of the pick order in plain words, what is not written down included: that is what people quarrel about later. */
export function slotSentences({ slots, ownerSeatId }: Order, place: number): SlotSentences {
  const slot = slots[place];
  if (!slot) return { lead: '', terms: [] };
  const { taker, sex, purpose, condition, byWhen, ifFails } = slot;
  return {
    lead: `Place ${place + 1}: ${taker === '' ? 'nobody named yet' : taker} takes ${sex === 'any' ? 'a dog or a bitch' : sexWords[sex]}, for a ${purposeWords[purpose]}.`,
    terms: [
      keepWords(slots, place, ownerSeatId),
      condition === '' ? 'No condition is written down.' : `On condition that: ${ended(condition)}`,
      byWhen === '' ? 'No date is written down.' : `To be chosen by: ${ended(byWhen)}`,
      ifFails === ''
        ? 'Nothing is written down for a pick that fails a check.'
        : `If the pick fails a check: ${ended(ifFails)}`,
    ].filter((term) => term !== ''),
  };
}

/** Before or after the breeder's own keep. */
function keepWords(slots: readonly SlotInput[], place: number, ownerSeatId: string | null): string {
  const isKeep = (slot: SlotInput) => slot.purpose === 'keep' && slot.seatId !== null && slot.seatId === ownerSeatId;
  const keeps = slots.flatMap((slot, at) => (isKeep(slot) ? [at] : []));
  if (keeps.includes(place)) return 'This is the breeder’s own keep.';
  const before = keeps.findLast((at) => at < place);
  if (before !== undefined) return `It comes after the breeder’s own keep, place ${before + 1}.`;
  const after = keeps.find((at) => at > place);
  return after === undefined ? '' : `It comes before the breeder’s own keep, place ${after + 1}.`;
}

function ended(words: string): string {
  return /[.!?]$/.test(words) ? words : `${words}.`;
}
