import { insertDiscussionNote } from '#db/queries/insertDiscussionNote';
import { DomainError } from '#lib/errors';
import { madeUnder, toldAtOnce } from '#lib/evaluation/toldAtOnce';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

export type NewNote = {
  readonly id: string;
  readonly evaluationId: string;
  readonly seatId: string;
  /** Null where the demo's script writes, which has none. */
  readonly deviceId: string | null;
  readonly slotId: string | null;
  readonly puppyId: string | null;
  /** The other of a pair. */
  readonly otherPuppyId: string | null;
  readonly criterion: string | null;
  readonly text: string;
};

/**
 * A note for the talk about a close call, a puppy, a pair or a criterion: after reveal, before the record is sealed. One that
 * is written while a second round or a look is open is its author's alone until that is revealed.
 */
export function addDiscussionNote(runtime: Runtime, note: NewNote): void {
  writeEvaluation(runtime, note.evaluationId, ({ facts, at, touchAll, touchSeat }) => {
    if (facts.phase !== 'deciding') throw new DomainError('wrong-phase');
    const known =
      (note.slotId === null || facts.slots.some((slot) => slot.id === note.slotId)) &&
      [note.puppyId, note.otherPuppyId].every((id) => id === null || facts.puppies.some((puppy) => puppy.id === id)) &&
      (note.criterion === null || facts.sheet.criteria.some((criterion) => criterion.key === note.criterion));
    if (!known) throw new DomainError('not-found');
    if (note.text === '') throw new DomainError('bad-input', { field: 'text' });
    insertDiscussionNote(runtime.db, { ...note, ...madeUnder(facts), at });
    if (toldAtOnce(facts)) touchAll();
    else touchSeat(note.seatId);
  });
}
