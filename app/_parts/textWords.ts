import type { Collar } from '#lib/contract/collar';
import type { PurposeKey, SeatKind } from '#lib/contract/setup';
import type { EvaluationPhase } from '#lib/evaluation/phase';
import type { View } from '#lib/sheet/criterion';

const list = new Intl.ListFormat('en-GB', { type: 'conjunction' });

/** "Fern", "Fern and Moss", "Fern, Moss and Sorrel". */
export function listWords(words: readonly string[]): string {
  return list.format(words);
}

/** With a capital first letter, for the start of a line. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "1 puppy", "9 puppies": a count with its word. The plural is given where it is no plain s. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** "blue collar", "no collar". */
export function collarWords(collar: Collar): string {
  return collar === 'none' ? 'no collar' : `${collar} collar`;
}

/** BL9: what counts only can and cannot do. */
export const countsOnlyCaution =
  'Counts only hides names, not people: with few seats, who said what can often be guessed, the more so where one of them saw or felt what the others could not.';

export const phaseWords: Readonly<Record<EvaluationPhase, string>> = {
  preparing: 'being prepared',
  scoring: 'being scored',
  deciding: 'revealed, to be decided',
  sealed: 'sealed',
};

/** Three ends, no ladder. */
export const purposeWords: Readonly<Record<PurposeKey, string>> = {
  keep: 'show or breeding keep',
  working: 'working home',
  companion: 'companion home',
};

/** What a seat can see and touch. */
export const seatKindWords: Readonly<Record<SeatKind, string>> = {
  hands: 'hands-on',
  live: 'live picture',
  photographs: 'photographs only',
  none: 'not scoring',
};

/** Where one stands, or what one uses. */
export const viewWords: Readonly<Record<View, string>> = {
  side: 'From the side',
  front: 'From in front',
  rear: 'From behind',
  above: 'From above',
  hands: 'By hand',
  head: 'Head',
};
