import { createHash } from 'node:crypto';
import { findEntry } from '#db/queries/findEntry';
import { listHeldAnswers } from '#db/queries/listHeldAnswers';
import { saveEntry } from '#db/queries/saveEntry';
import { DomainError } from '#lib/errors';
import { decideCardMove, type CardMove } from '#lib/evaluation/decideCardMove';
import { swapCards } from '#lib/evaluation/swapCards';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

type Move = CardMove & { readonly evaluationId: string; readonly seatId: string; readonly moveId: string };

/**
 * Lets two of a seat's own cards change places, by entries on top of all that was said (SC3); the record says which
 * puppies, never what. The entries' ids come from the move's, so that asking again changes nothing (SC2).
 */
export function moveCard(runtime: Runtime, { evaluationId, seatId, from, to, moveId }: Move): void {
  const { db } = runtime;
  const idOf = ({ subject, field }: { readonly subject: string; readonly field: string }) =>
    createHash('sha256').update(JSON.stringify([moveId, seatId, subject, field])).digest('hex').slice(0, 32);
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, touchSeat, note }) => {
    const { round } = facts;
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!round || !seat) throw new DomainError('wrong-phase');
    const held = listHeldAnswers(db, { seatId, roundId: round.id, subjects: [from, to] });
    if (held.some((answer) => findEntry(db, idOf(answer)))) return;
    refuse(decideCardMove(facts, seat, { from, to }));
    const puppyOf = (subject: string) => facts.puppies.find((puppy) => round.showings.some((one) => one.id === subject && one.puppyId === puppy.id));
    const sideOf = (subject: string) => ({ subject, bitch: puppyOf(subject)?.sex === 'bitch' });
    const swapped = swapCards(held, sideOf(from), sideOf(to));
    if (swapped.length === 0) throw new DomainError('bad-input');
    for (const { subject, field, counter, body, deviceId } of swapped) {
      const entry = { id: idOf({ subject, field }), subject, counter, madeAt: at, body };
      saveEntry(db, { entry, roundId: round.id, seatId, deviceId, status: 'applied', receivedAt: at });
    }
    note(seatName(seatId), 'card-moved', `${puppyOf(from)?.name ?? ''} and ${puppyOf(to)?.name ?? ''}`);
    touchSeat(seatId);
    touchAll();
  });
}
