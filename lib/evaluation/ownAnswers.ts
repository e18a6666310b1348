import type { Answer, EntryBody } from '../contract/entry';
import { entryField } from './entries';
import { registerOf, type OutboxState } from './outboxState';

/** server: acknowledged. phone: only here. late and refused: the newest edit of this register came to that, and the body is what stands. */
export type AnswerPlace = 'server' | 'phone' | 'late' | 'refused';

export type OwnAnswer = {
  /** Null where nothing stands: the only edit was refused or late. */
  readonly body: EntryBody | null;
  readonly counter: number;
  readonly place: AnswerPlace;
  readonly code: string | null;
};

/**
 * What the person sees as said, by register: the server's answers overlaid with this device's, the highest counter
 * winning, as on the server. A late or refused edit never shows as the value; it marks the register until a newer one.
 */
export function ownAnswers(
  answers: readonly Answer[],
  outbox: OutboxState,
  roundId: string,
): ReadonlyMap<string, OwnAnswer> {
  const current = new Map<string, OwnAnswer>();
  for (const { subject, field, counter, body } of answers) {
    current.set(registerOf(subject, field), { body, counter, place: 'server', code: null });
  }
  const rows = outbox.rows
    .filter((row) => row.roundId === roundId)
    .toSorted((a, b) => a.entry.counter - b.entry.counter || a.entry.madeAt - b.entry.madeAt);
  for (const { entry, status, code } of rows) {
    const register = registerOf(entry.subject, entryField(entry.body));
    const standing = current.get(register);
    if (status === 'superseded' || (standing && standing.counter > entry.counter)) continue;
    const stands = status === 'waiting' || status === 'applied';
    current.set(register, {
      body: stands ? entry.body : (standing?.body ?? null),
      counter: entry.counter,
      place: status === 'applied' ? 'server' : status === 'waiting' ? 'phone' : status,
      code,
    });
  }
  return current;
}

/** Whether a body says something, rather than clear what was said. */
export function saysSomething(body: EntryBody | null): boolean {
  switch (body?.kind) {
    case undefined:
      return false;
    case 'score':
    case 'free':
    case 'overall':
      return body.value !== null || body.cannotJudge;
    case 'check':
      return body.answer !== null;
    case 'note':
      return body.text !== '';
    case 'manner':
      return body.manner !== null;
    case 'fair':
      return true;
    case 'choice':
      return body.puppy !== null;
  }
}
