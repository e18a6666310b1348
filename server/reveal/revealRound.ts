import { insertSnapshot } from '#db/queries/insertSnapshot';
import { setEvaluationPhase } from '#db/queries/setEvaluationPhase';
import { setRoundState } from '#db/queries/setRoundState';
import { listRoundAnswers } from '#db/queries/unblinded/listRoundAnswers';
import type { Snapshot } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import { decideReveal } from '#lib/evaluation/decideRound';
import type { EvaluationFacts, RoundFacts } from '#lib/evaluation/facts';
import { refuse } from '../commands/refuse';
import { writeEvaluation } from '../commands/writeEvaluation';
import type { Runtime } from '../runtime';

/** Reveals a closed round for good (BL7): the same transaction stores the snapshot every result is computed from. */
export function revealRound(runtime: Runtime, evaluationId: string): void {
  const { db, random } = runtime;
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, note }) => {
    refuse(decideReveal(facts));
    if (!facts.round) throw new DomainError('wrong-phase');
    setRoundState(db, facts.round.id, { from: 'closed', to: 'revealed', at });
    setEvaluationPhase(db, evaluationId, { phase: 'deciding', at });
    insertSnapshot(db, { id: random.id(), body: takeSnapshot(runtime, { facts, round: facts.round, at }) });
    note('owner', 'round-revealed');
    touchAll();
  });
}

type Moment = { readonly facts: EvaluationFacts; readonly round: RoundFacts; readonly at: number };

function takeSnapshot({ db }: Runtime, { facts, round, at }: Moment): Snapshot {
  return {
    evaluationId: facts.id,
    roundId: round.id,
    medium: round.medium,
    revealedAt: at,
    sheet: facts.sheet,
    puppies: [...facts.puppies],
    seats: facts.seats.map(({ id, label, kind, position, lockedAt, issued }) => ({ id, label, kind, position, locked: lockedAt !== null, reissued: issued > 1 })),
    showings: [...round.showings],
    slots: [...facts.slots],
    purposes: [...facts.purposes],
    answers: listRoundAnswers(db, round.id),
  };
}
