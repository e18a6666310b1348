/**
 * Every kind of line the record can hold. A kind is added here first: then the types ask for its words (app/record) and for
 * what it promises (promisedState), and nothing can be written that `verify` does not replay.
 */
export const recordKinds = [
  'evaluation-created',
  'binding-begun',
  'set-up-saved',
  'restored',
  'seat-added',
  'seat-changed',
  'seat-removed',
  'seat-joined',
  'seat-reissued',
  'seat-ended',
  'seat-locked',
  'link-made',
  'link-refused',
  'code-made',
  'device-let-in',
  'owner-signed-in',
  'owner-sessions-ended',
  'passphrase-set',
  'pick-order-confirmed',
  'puppy-withdrawn',
  'puppy-brought-back',
  'card-moved',
  'card-typed',
  'paper-locked',
  'words-removed',
  'round-opened',
  'second-round-opened',
  'round-closed',
  'committed',
  'committed-unlocked',
  'round-reopened',
  'round-revealed',
  'came-late',
  'entries-sent-again',
  'look-opened',
  'look-stopped',
  'look-closed',
  'hold-cleared',
  'hold-answered',
  'decided',
  'decision-taken-back',
  'behaviour-noted',
  'sealed',
  'addendum-written',
  'home-linked',
  'home-ended',
  'imported',
] as const;
export type RecordKind = (typeof recordKinds)[number];

/**
 * What a line binds by SHA-256. What the removal of a person's words may change (agreed, reason, lateWords, noteWords) is
 * bound apart from what it may not, so that a removal is no way to change a score or a pick.
 */
export const boundNames = [
  'seat',
  'terms',
  'agreed',
  'withdrawal',
  'typed',
  'scores',
  'late',
  'lateWords',
  'looks',
  'answers',
  'clearance',
  'addendum',
  'decision',
  'reason',
  'notes',
  'noteWords',
  'question',
  'result',
  'lines',
] as const;
export type BoundName = (typeof boundNames)[number];
export type Binding = readonly [BoundName, string];

/** The words of a line, then what it binds: `words [terms 5f…, agreed 07…]`. Nothing bound leaves the words as they are. */
export function withBindings(words: string, bindings: readonly Binding[]): string {
  if (bindings.length === 0) return words;
  return `${words}${words === '' ? '' : ' '}[${bindings.map(([name, hash]) => `${name} ${hash}`).join(', ')}]`;
}

const tail = /(?:^| )\[([a-zA-Z]+ [0-9a-f]{64}(?:, [a-zA-Z]+ [0-9a-f]{64})*)\]$/;

/** What a line binds, in its order; empty where it binds nothing. What somebody typed stands before it and is not read. */
export function bindingsIn(detail: string): readonly Binding[] {
  return (tail.exec(detail)?.[1] ?? '').split(', ').flatMap((one): Binding[] => {
    const [name, hash] = one.split(' ');
    const known = boundNames.find((bound) => bound === name);
    return known !== undefined && hash !== undefined ? [[known, hash]] : [];
  });
}
