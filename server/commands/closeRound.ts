import { setRoundState } from '#db/queries/setRoundState';
import { voidCommitments } from '#db/queries/voidCommitments';
import { voidLocks } from '#db/queries/voidLocks';
import { DomainError } from '#lib/errors';
import { decideClose, decideReopen } from '#lib/evaluation/decideRound';
import { seatState } from '#lib/evaluation/seatState';
import type { Runtime } from '../runtime';
import { publishCommitments } from './commitCards';
import { revealClosed } from '../reveal/revealRound';
import { refuse } from './refuse';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

/** The owner ends scoring: seats that have not locked stand as they are, and the record says which. */
export function closeRound(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideClose(facts));
    if (!facts.round) throw new DomainError('wrong-phase');
    setRoundState(runtime.db, facts.round.id, { from: 'open', to: 'closed', at });
    const open = facts.seats.filter((seat) => seat.kind !== 'none' && seatState(seat) !== 'locked').map((seat) => seatName(seat.id));
    note('owner', 'round-closed', open.length > 0 ? `not locked: ${open.join(', ')}` : '');
    publishCommitments(runtime, facts, { at, note });
    // A lesson is shown as it closes, as at the mentor's lock.
    if (facts.round.occasion === 'lesson') revealClosed(runtime, { facts, at, note, actor: 'owner' });
    touchAll();
  });
}

/** Before reveal only, and on the record: every lock and every commitment is void and every seat locks anew (BL7). */
export function reopenRound(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideReopen(facts));
    if (!facts.round) throw new DomainError('wrong-phase');
    setRoundState(runtime.db, facts.round.id, { from: 'closed', to: 'open', at });
    voidLocks(runtime.db, facts.round.id);
    voidCommitments(runtime.db, facts.round.id, at);
    note('owner', 'round-reopened');
    touchAll();
  });
}
