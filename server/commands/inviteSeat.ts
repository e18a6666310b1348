import { insertLink } from '#db/queries/insertLink';
import { DomainError } from '#lib/errors';
import { tooManyForLesson } from '#lib/evaluation/lessonSeats';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

type Invitation = { readonly evaluationId: string; readonly seatId: string; readonly actor?: string };

/** A fresh one-time link for a seat that nobody has held yet; the owner's own seat has none (she takes it from her session). */
export function inviteSeat(runtime: Runtime, { evaluationId, seatId, actor = 'owner' }: Invitation): string {
  return writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (seat.owner || seat.issued > 0) throw new DomainError('in-use');
    if (facts.phase === 'sealed') throw new DomainError('wrong-phase');
    if (seat.kind !== 'none' && tooManyForLesson(facts.plan.kind, facts.seats)) throw new DomainError('lesson-seats');
    const token = runtime.random.token();
    insertLink(runtime.db, { tokenHash: hashToken(token), kind: 'seat', seatId, createdAt: at });
    note(actor, 'link-made', seatName(seat.id));
    touchAll();
    return token;
  });
}
