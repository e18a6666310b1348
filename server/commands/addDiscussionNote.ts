import { insertDiscussionNote } from '#db/queries/insertDiscussionNote';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

export type NewNote = {
  readonly id: string;
  readonly evaluationId: string;
  readonly seatId: string;
  readonly slotId: string | null;
  readonly puppyId: string | null;
  /** The other of a pair. */
  readonly otherPuppyId: string | null;
  readonly criterion: string | null;
  readonly text: string;
};

/** A note for the talk about a close call, a puppy, a pair or a criterion: after reveal, before the record is sealed, and not while a second round is scored blind. */
export function addDiscussionNote(runtime: Runtime, note: NewNote): void {
  writeEvaluation(runtime, note.evaluationId, ({ facts, at, touchAll }) => {
    if (facts.phase !== 'deciding') throw new DomainError('wrong-phase');
    if (facts.round?.state !== 'revealed') throw new DomainError('still-open');
    const known =
      (note.slotId === null || facts.slots.some((slot) => slot.id === note.slotId)) &&
      [note.puppyId, note.otherPuppyId].every((id) => id === null || facts.puppies.some((puppy) => puppy.id === id)) &&
      (note.criterion === null || facts.sheet.criteria.some((criterion) => criterion.key === note.criterion));
    if (!known) throw new DomainError('not-found');
    if (note.text === '') throw new DomainError('bad-input', { field: 'text' });
    insertDiscussionNote(runtime.db, { ...note, at });
    touchAll();
  });
}
