import type { SlotView } from '#lib/contract/evaluationView';
import { purposeWords } from '../_parts/purposeWords';

/** A place in one line: who takes it, what for, and on what terms. */
export function slotWords(slot: SlotView): string {
  return `${slot.taker}: ${slotTerms(slot)}`;
}

const sexWords = { any: '', dog: 'a dog', bitch: 'a bitch' } as const;

/** What a place is for and on what terms, in one line. */
export function slotTerms({ purpose, sex, condition, byWhen, ifFails }: SlotView): string {
  const terms = [purposeWords[purpose], sexWords[sex], condition, byWhen === '' ? '' : `by ${byWhen}`, ifFails === '' ? '' : `if it fails: ${ifFails}`];
  return terms.filter((one) => one !== '').join(' · ');
}
