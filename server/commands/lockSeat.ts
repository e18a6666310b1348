import { getEvaluationFacts } from '#db/queries/getEvaluationFacts';
import { setRoundState } from '#db/queries/setRoundState';
import { setSeatLock } from '#db/queries/setSeatLock';
import { DomainError } from '#lib/errors';
import { decideLock, everySeatLocked } from '#lib/evaluation/decideRound';
import type { Runtime } from '../runtime';
import type { Promised } from '../cardsHash';
import { commitLock, publishCommitments } from './commitCards';
import { revealClosed } from '../reveal/revealRound';
import { refuse } from './refuse';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

type Lock = { readonly evaluationId: string; readonly seatId: string; readonly deviceId: string; readonly promised: Promised };

/** Locks one seat's cards as its device promised them; the last awaited lock closes the round. A backup follows. */
export function lockSeat(runtime: Runtime, { evaluationId, seatId, deviceId, promised }: Lock): void {
  const { db } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideLock(facts, seatId));
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!facts.round || !seat) throw new DomainError('wrong-phase');
    commitLock(runtime, { round: facts.round, seat, deviceId, promised, at });
    setSeatLock(db, { roundId: facts.round.id, seatId, lockedAt: at });
    note(seatName(seat.id), 'seat-locked');
    const after = getEvaluationFacts(db, evaluationId);
    if (everySeatLocked(after)) {
      setRoundState(db, facts.round.id, { from: 'open', to: 'closed', at });
      note('the last lock', 'round-closed');
      publishCommitments(runtime, after, { at, note });
      // A lesson is shown to both at the mentor's lock, which is the last.
      if (facts.round.occasion === 'lesson') revealClosed(runtime, { facts: after, at, note, actor: seatName(seat.id) });
    }
    touchAll();
  });
  runtime.backups.ask();
}
