import type { RecordEntry } from '#lib/contract/decisionView';
import type { RecordKind } from '#lib/proof/recordKinds';
import { hashHead } from './hashHead';

const words: Readonly<Record<RecordKind, string>> = {
  'evaluation-created': 'made the evaluation',
  'binding-begun': 'binds by hash what happens from here on',
  restored: 'restored a backup',
  'owner-signed-in': 'signed in',
  'owner-sessions-ended': 'ended other sessions of the owner',
  'passphrase-set': 'set the passphrase',
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
  'puppy-brought-back': 'brought back a withdrawn puppy',
  'came-late': 'keeps what came late to a revealed round',
  'look-opened': 'opened second looks',
  'look-closed': 'closed the second looks',
  'look-stopped': 'brought second looks back closed',
  decided: 'picked',
  'decision-taken-back': 'took back the last pick',
  'hold-cleared': 'recorded a veterinary answer',
  sealed: 'sealed the record',
};

/** One line of what happened, in words; of the hashes that it binds the beginnings. A kind this page does not know stays readable. */
export function eventWords({ kind, detail }: Pick<RecordEntry, 'kind' | 'detail'>): string {
  const what = isKnown(kind) ? words[kind] : kind.replaceAll('-', ' ');
  return detail === '' ? what : `${what}: ${detail.replaceAll(/(?<=[a-zA-Z] )[0-9a-f]{64}(?=[,\]])/g, hashHead)}`;
}

const isKnown = (kind: string): kind is RecordKind => Object.hasOwn(words, kind);
