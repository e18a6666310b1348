import { setRaisedHand } from '#db/queries/setRaisedHand';
import { DomainError } from '#lib/errors';
import type { Viewer } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

type Hand = { readonly evaluationId: string; readonly viewer: Viewer; readonly seatId: string; readonly up: boolean };

/** A seat asks to speak in the discussion, or has spoken: itself, or whoever leads, may take the hand down. */
export function askToSpeak(runtime: Runtime, { evaluationId, viewer, seatId, up }: Hand): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll }) => {
    if (!facts.seats.some((seat) => seat.id === seatId)) throw new DomainError('not-found');
    const own = viewer.seatId === seatId;
    if (!own && (up || !(viewer.owner || viewer.leads))) throw new DomainError('not-allowed');
    if (facts.phase !== 'deciding') throw new DomainError('wrong-phase');
    setRaisedHand(runtime.db, { evaluationId, seatId, at, up });
    touchAll();
  });
}
