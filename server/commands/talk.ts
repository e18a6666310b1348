import { insertDiscussionNote } from '#db/queries/decisions';
import { findHand, lowerHand, raiseHand } from '#db/queries/seats';
import { DomainError } from '#lib/errors';
import { mayDiscuss } from '#lib/evaluation/seats';
import { madeUnder, toldAtOnce } from '#lib/evaluation/toldAtOnce';
import { type Asker, change, mustRead, ownSeat } from '../write/writeEvaluation';

type NewNote = {
  readonly id: string;
  readonly evaluationId: string;
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
export function addDiscussionNote(ctx: Asker, note: NewNote): void {
  change({ ctx, id: note.evaluationId }, (write) => {
    const { facts, at, touchAll, touchSeat } = write;
    const seat = ownSeat(write);
    if (!mayDiscuss(seat)) throw new DomainError('not-allowed');
    if (facts.phase !== 'deciding') throw new DomainError('wrong-phase');
    const known =
      (note.slotId === null || facts.slots.some((slot) => slot.id === note.slotId)) &&
      [note.puppyId, note.otherPuppyId].every((id) => id === null || facts.puppies.some((puppy) => puppy.id === id)) &&
      (note.criterion === null || facts.sheet.criteria.some((criterion) => criterion.key === note.criterion));
    if (!known) throw new DomainError('not-found');
    if (note.text === '') throw new DomainError('bad-input', { field: 'text' });
    insertDiscussionNote(ctx.runtime.db, {
      ...note,
      seatId: seat.id,
      deviceId: ctx.device.id,
      ...madeUnder(facts),
      at,
    });
    if (toldAtOnce(facts)) touchAll();
    else touchSeat(seat.id);
  });
}

type Hand = { readonly evaluationId: string; readonly seatId: string; readonly up: boolean };

/**
 * A seat asks to speak in the discussion, or has spoken: itself, or whoever leads, may take the hand down. While a round or a
 * look is open a hand that goes up is its seat's affair, and one that all have seen stays up: either would speak (BL8).
 */
export function askToSpeak(ctx: Asker, { evaluationId, seatId, up }: Hand): void {
  const { db } = ctx.runtime;
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, viewer, at, touchAll, touchSeat } = write;
    mustRead(write);
    if (!facts.seats.some((seat) => seat.id === seatId)) throw new DomainError('not-found');
    const own = viewer.seatId === seatId;
    if (!own && (up || !(viewer.owner || viewer.leads))) throw new DomainError('not-allowed');
    if (facts.phase !== 'deciding') throw new DomainError('wrong-phase');
    const told = toldAtOnce(facts);
    // To whoever leads a hand that is up unseen and one that is down are the same.
    if (!up && !told && (!own || findHand(db, { evaluationId, seatId })?.held === false))
      throw new DomainError('still-open');
    if (up) raiseHand(db, { evaluationId, seatId, deviceId: ctx.device.id, at, ...madeUnder(facts) });
    else lowerHand(db, { evaluationId, seatId });
    if (told) touchAll();
    else touchSeat(seatId);
  });
}
