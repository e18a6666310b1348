import { deleteSeat } from '#db/queries/deleteSeat';
import { saveSeat } from '#db/queries/saveSeat';
import type { SeatInput } from '#lib/contract/setup';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

type SeatChange = { readonly evaluationId: string; readonly seatId: string | null; readonly input: SeatInput };

/**
 * Adds a seat, or changes one. While scoring a late evaluator may still be added, but what a joined seat may see and
 * touch stays as agreed. Labels are told apart on every screen, so no two are the same.
 */
export function savePanelSeat(runtime: Runtime, { evaluationId, seatId, input }: SeatChange): string {
  return writeEvaluation(runtime, evaluationId, ({ facts, touchAll, note }) => {
    const standing = facts.seats.find((seat) => seat.id === seatId);
    if (seatId !== null && !standing) throw new DomainError('not-found');
    if (facts.phase !== 'preparing' && (standing || facts.round?.state !== 'open')) throw new DomainError('wrong-phase');
    const taken = facts.seats.some((seat) => seat.id !== seatId && seat.label.toLowerCase() === input.label.toLowerCase());
    if (taken || facts.seats.length >= 12) throw new DomainError('bad-input', { field: 'label' });
    const id = seatId ?? runtime.random.id();
    saveSeat(runtime.db, { id, evaluationId, owner: standing?.owner ?? false, input });
    note('owner', standing ? 'seat-changed' : 'seat-added', input.label);
    touchAll();
    return id;
  });
}

/** Takes a seat that nobody has joined from the panel, before scoring. */
export function removePanelSeat(runtime: Runtime, { evaluationId, seatId }: { readonly evaluationId: string; readonly seatId: string }): void {
  writeEvaluation(runtime, evaluationId, ({ facts, touchAll, note }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-found');
    if (facts.phase !== 'preparing') throw new DomainError('wrong-phase');
    if (seat.owner || seat.issued > 0 || facts.slots.some((slot) => slot.seatId === seatId)) throw new DomainError('in-use');
    deleteSeat(runtime.db, seatId);
    note('owner', 'seat-removed', seat.label);
    touchAll();
  });
}
