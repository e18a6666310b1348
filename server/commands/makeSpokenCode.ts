import { getSeat } from '#db/queries/getSeat';
import { insertLink } from '#db/queries/insertLink';
import { DomainError } from '#lib/errors';
import { tooManyForLesson } from '#lib/evaluation/lessonSeats';
import type { Random } from '../random';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import { freshSpoken, hashSpoken } from './spokenSecret';
import { writeEvaluation, type EvaluationWrite } from './writeEvaluation';

/** Ten minutes, once. */
export const codeLife = 600_000;

export type SpokenCode = {
  readonly code: string;
  readonly expiresAt: number;
  /** True when the seat is held: whoever types the code must still be let in by the seat's own device. */
  readonly further: boolean;
};

type Ask = { readonly evaluationId: string; readonly seatId: string; readonly actor: string };

/**
 * A code to be spoken instead of a link. For a seat that nobody has held, or that was issued again and awaits its device, it
 * lets a device in; for a seat that is held it only lets one ask (BL9). A seat whose devices have gone is issued again first.
 */
export function makeSpokenCode(runtime: Runtime, { evaluationId, seatId, actor }: Ask): SpokenCode {
  return writeEvaluation(runtime, evaluationId, (write) => {
    const seat = write.facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (write.facts.phase === 'sealed') throw new DomainError('wrong-phase');
    const waiting = seat.issued === 0 || seat.linkWaiting;
    if (seat.owner || (!waiting && !seat.joined)) throw new DomainError('in-use');
    if (waiting && seat.kind !== 'none' && tooManyForLesson(write.facts.plan.kind, write.facts.seats)) throw new DomainError('lesson-seats');
    write.note(actor, 'code-made', seatName(seat.id));
    return insertCode(runtime, write, { evaluationId, seatId, further: !waiting });
  });
}

function insertCode({ db, random }: { readonly db: Runtime['db']; readonly random: Random }, { at }: Pick<EvaluationWrite, 'at'>, of: { readonly evaluationId: string | null; readonly seatId: string | null; readonly further: boolean }): SpokenCode {
  const code = freshSpoken(random, of.evaluationId);
  const expiresAt = at + codeLife;
  insertLink(db, { tokenHash: hashSpoken(code), kind: of.further ? 'further' : 'code', seatId: of.seatId, createdAt: at, expiresAt });
  return { code, expiresAt, further: of.further };
}

/** For a further device of the asker's own seat, or of the owner (null); no record, since nobody is in yet. */
export function makeFurtherCode(runtime: Runtime, seatId: string | null): SpokenCode {
  return insertCode(runtime, { at: runtime.clock.now() }, { evaluationId: seatId === null ? null : getSeat(runtime.db, seatId).evaluationId, seatId, further: true });
}
