import type { SlotView } from '#lib/contract/evaluationView';
import { purposeWords } from '../_parts/purposeWords';

const sexWords = { any: '', dog: 'a dog', bitch: 'a bitch' } as const;

/** A place in one line: who takes it, what for, and on what terms. */
export function slotWords({ taker, purpose, sex, condition, byWhen, ifFails }: SlotView): string {
  const terms = [
    purposeWords[purpose],
    sexWords[sex],
    condition,
    byWhen === '' ? '' : `by ${byWhen}`,
    ifFails === '' ? '' : `if it fails: ${ifFails}`,
  ].filter((one) => one !== '');
  return `${taker}: ${terms.join(' · ')}`;
}
