import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { setRoundState } from '#db/queries/setRoundState';
import { setSeatLock } from '#db/queries/setSeatLock';
import { DomainError } from '#lib/errors';
import { decideLock, everySeatLocked } from '#lib/evaluation/decideRound';
import type { Runtime } from '../runtime';
import { refuse } from './refuse';
import { writeEvaluation } from './writeEvaluation';

/** Locks one seat's cards; the last awaited lock closes the round. */
export function lockSeat(runtime: Runtime, { evaluationId, seatId }: { readonly evaluationId: string; readonly seatId: string }): void {
  const { db } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideLock(facts, seatId));
    if (!facts.round) throw new DomainError('wrong-phase');
    setSeatLock(db, { roundId: facts.round.id, seatId, lockedAt: at });
    note(facts.seats.find((seat) => seat.id === seatId)?.label ?? '', 'seat-locked');
    if (everySeatLocked(getEvaluationFacts(db, evaluationId))) {
      setRoundState(db, facts.round.id, { from: 'open', to: 'closed', at });
      note('the last lock', 'round-closed');
    }
    touchAll();
  });
}
