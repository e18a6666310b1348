import { counted } from '../_parts/counted';
import type { CardFault, CheckedCard } from './checkCards';
import { listWords } from './listWords';

const faultWords: Readonly<Record<CardFault, string>> = {
  cards: 'is not what was committed before the reveal',
  published: 'has another commitment than this device saw before the reveal',
  promise: 'is not the one this device locked',
  server: 'was locked by its own device, yet its commitment was made by the server',
  missing: 'was committed before the reveal and has not been opened',
  board: 'is not the one the board shows',
};

/** What this device found when it made every commitment again: a sentence each, the verdict first. */
export function promiseWords(checked: readonly CheckedCard[], labelOf: (seat: string) => string): string[] {
  if (checked.length === 0) return ['Nothing was committed here before the reveal, so nothing can be checked.'];
  const faults = checked.flatMap(({ seat, fault }) => (fault === null ? [] : [`The card of ${labelOf(seat)} ${faultWords[fault]}.`]));
  const kept = checked.filter((one) => one.fault === null && !one.wordsRemoved);
  const removed = checked.filter((one) => one.wordsRemoved).length;
  const unlocked = [...new Set(checked.filter((one) => !one.locked).map((one) => labelOf(one.seat)))];
  return [
    ...faults,
    ...(kept.length === 0 ? [] : [keptWords(kept.length, faults.length + removed)]),
    ...(unlocked.length === 0 ? [] : [`Bound by the server when the round closed, because not locked: ${listWords(unlocked)}.`]),
    ...(removed === 0 ? [] : [`${counted(removed, 'card')} can no longer be checked: the person’s words were removed.`]),
  ];
}

function keptWords(kept: number, rest: number): string {
  if (rest > 0) return `The other ${counted(kept, 'card')} ${kept === 1 ? 'is' : 'are'} what was committed before the reveal.`;
  return kept === 1 ? 'The one card opened here is what was committed before the reveal.' : `All ${kept} cards are what was committed before the reveal.`;
}
