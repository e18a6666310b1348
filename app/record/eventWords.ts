import type { RecordEntry } from '#lib/contract/decisionView';

const words: Readonly<Record<string, string>> = {
  'set-up-saved': 'saved the set-up',
  'seat-added': 'added a seat',
  'seat-changed': 'changed a seat',
  'seat-removed': 'removed a seat',
  'seat-joined': 'joined',
  'seat-locked': 'locked the card',
  'entries-sent-again': 'sent again what its device says had been acknowledged, and was missing here; entries',
  'link-made': 'made a link for a seat',
  'link-refused': 'tried another seat’s link or code and was refused',
  'code-made': 'made a spoken code for a seat',
  'device-let-in': 'let a further device in',
  'seat-reissued': 'issued a seat again',
  'seat-ended': 'ended the sessions of a seat',
  'words-removed': 'removed the words of a seat',
  'home-linked': 'made a link for the home of a puppy',
  'home-ended': 'ended the link of the home of a puppy',
  'pick-order-confirmed': 'agreed to the pick order',
  'second-round-opened': 'opened a second round',
  'round-opened': 'opened the round',
  'round-closed': 'closed the round',
  'round-reopened': 'reopened the round: locks and commitments before it are void',
  committed: 'is bound to its card by',
  'committed-unlocked': 'had not locked; the server bound its card by',
  'round-revealed': 'revealed the round',
  'card-moved': 'let two cards of the own seat change places after a collar swap',
  'puppy-withdrawn': 'withdrew a puppy',
  'look-opened': 'opened second looks',
  'look-closed': 'closed the second looks',
  decided: 'picked',
  'decision-taken-back': 'took back the last pick',
  'hold-cleared': 'recorded a veterinary answer',
  sealed: 'sealed the record',
};

/** One line of what happened, in words; a kind this page does not know stays readable. */
export function eventWords({ kind, detail }: Pick<RecordEntry, 'kind' | 'detail'>): string {
  const what = (Object.hasOwn(words, kind) ? words[kind] : undefined) ?? kind.replaceAll('-', ' ');
  return detail === '' ? what : `${what}: ${detail}`;
}
