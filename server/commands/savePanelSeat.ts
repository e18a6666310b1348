import { seatHash } from '#db/queries/boundHashes';
import { deleteSeat } from '#db/queries/deleteSeat';
import { saveSeat } from '#db/queries/saveSeat';
import type { SeatInput } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import type { SeatFacts } from '#lib/evaluation/facts';
import { tooManyForLesson } from '#lib/evaluation/lessonSeats';
import { rightsFit } from '#lib/evaluation/rightsFit';
import { withBindings } from '#lib/proof/recordKinds';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

type SeatChange = {
  readonly evaluationId: string;
  readonly seatId: string | null;
  /** For one that is added: the same when it is asked again (SC2); left out for a fresh one. */
  readonly newId?: string;
  readonly input: SeatInput;
  /** The organiser's seat that asks; left out for the owner. */
  readonly organiserId?: string | null;
};

/**
 * Adds a seat, or changes one. While scoring a late evaluator may still be added, but what a joined seat may see and
 * touch stays as agreed. Labels are told apart on every screen, so no two are the same. An organiser leaves her own seat,
 * the owner's and everybody's rights as the owner gave them: else she could give herself the right to decide.
 */
export function savePanelSeat(runtime: Runtime, { evaluationId, seatId, newId = runtime.random.id(), input, organiserId = null }: SeatChange): string {
  return writeEvaluation(runtime, evaluationId, ({ facts, touchAll, note }) => {
    const standing = facts.seats.find((seat) => seat.id === seatId);
    if (seatId !== null && !standing) throw new DomainError('not-found');
    if (seatId === null && facts.seats.some((seat) => seat.id === newId)) return newId;
    if (facts.phase !== 'preparing' && (standing || facts.round?.state !== 'open')) throw new DomainError('wrong-phase');
    // A third that scores already may still be put right, or made one without a card.
    const added = input.kind !== 'none' && (standing?.kind ?? 'none') === 'none';
    if (added && tooManyForLesson(facts.plan.kind, [...facts.seats, input])) throw new DomainError('lesson-seats');
    if (!rightsFit(input)) throw new DomainError('bad-input', { field: 'kind' });
    if (organiserId !== null && (seatId === organiserId || standing?.owner === true || !sameRights(standing, input))) throw new DomainError('not-allowed');
    const taken = facts.seats.some((seat) => seat.id !== seatId && seat.label.toLowerCase() === input.label.toLowerCase());
    if (taken || facts.seats.length >= 12) throw new DomainError('bad-input', { field: 'label' });
    const id = seatId ?? newId;
    saveSeat(runtime.db, { id, evaluationId, owner: standing?.owner ?? false, input });
    note(organiserId === null ? 'owner' : seatName(organiserId), standing ? 'seat-changed' : 'seat-added', withBindings(seatName(id), [['seat', seatHash(runtime.db, id)]]));
    touchAll();
    return id;
  });
}

/** A fresh seat begins without rights. */
function sameRights(standing: SeatFacts | undefined, { picks, organises = false, reads = false }: SeatInput): boolean {
  const before = standing ?? { picks: false, organises: false, reads: false };
  return before.picks === picks && before.organises === organises && before.reads === reads;
}

type Taking = { readonly evaluationId: string; readonly seatId: string; readonly actor: string };

/** Takes a seat that nobody has joined from the panel, before scoring. */
export function removePanelSeat(runtime: Runtime, { evaluationId, seatId, actor }: Taking): void {
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (facts.phase !== 'preparing') throw new DomainError('wrong-phase');
    if (seat.owner || seat.issued > 0 || facts.slots.some((slot) => slot.seatId === seatId)) throw new DomainError('in-use');
    deleteSeat(runtime.db, seatId);
    note(actor, 'seat-removed', seatName(seat.id));
    touchAll();
  });
}
