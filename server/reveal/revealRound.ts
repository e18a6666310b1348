import type { Db } from '#db/open';
import { insertSnapshot } from '#db/queries/results';
import { setEvaluationPhase } from '#db/queries/evaluations';
import { listPaperCards } from '#db/queries/paperCards';
import { setRoundState } from '#db/queries/rounds';
import { listRoundAnswers } from '#db/queries/unblinded/answers';
import type { Snapshot } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import { decideReveal } from '#lib/evaluation/rounds';
import type { EvaluationFacts, RoundFacts } from '#lib/evaluation/facts';
import { type EvaluationWrite, refuse, writeEvaluation } from '../write/writeEvaluation';
import type { Runtime } from '../runtime';
import { recordLate, snapshotBinding } from './bindings';

/** Reveals a closed round for good (BL7): the same transaction stores the snapshot every result is computed from. A backup follows. */
export function revealRound(runtime: Runtime, evaluationId: string): void {
  writeEvaluation(runtime, evaluationId, (write) => {
    refuse(decideReveal(write.facts));
    revealClosed(runtime, { ...write, actor: 'owner' });
    write.touchAll();
  });
  runtime.backups.ask();
}

/** The reveal itself, inside a transaction that has closed the round: the owner's, or a lesson's last lock. */
export function revealClosed(
  { db, random }: Runtime,
  { facts, at, note, actor }: Pick<EvaluationWrite, 'facts' | 'at' | 'note'> & { readonly actor: string },
): void {
  if (!facts.round) throw new DomainError('wrong-phase');
  setRoundState(db, facts.round.id, { from: 'closed', to: 'revealed', at });
  setEvaluationPhase(db, facts.id, { phase: 'deciding', at });
  const body = takeSnapshot(db, { facts, round: facts.round, at });
  insertSnapshot(db, { id: random.id(), body });
  // What results are computed from, bound into the record: a snapshot changed afterwards is found.
  note(actor, 'round-revealed', snapshotBinding(body));
  recordLate(db, { facts, round: facts.round, note });
}

type Moment = { readonly facts: EvaluationFacts; readonly round: RoundFacts; readonly at: number };

function takeSnapshot(db: Db, { facts, round, at }: Moment): Snapshot {
  const typed = new Set(listPaperCards(db, round.id).map(({ seatId }) => seatId));
  return {
    evaluationId: facts.id,
    roundId: round.id,
    medium: round.medium,
    revealedAt: at,
    sheet: facts.sheet,
    puppies: [...facts.puppies],
    seats: facts.seats.map(({ id, label, kind, position, lockedAt, issued }) => ({
      id,
      label,
      kind,
      position,
      locked: lockedAt !== null,
      reissued: issued > 1,
      typed: typed.has(id),
    })),
    showings: [...round.showings],
    cells: round.cells && [...round.cells],
    coded: facts.plan.identity === 'coded' && facts.medium === 'photographs',
    slots: [...facts.slots],
    purposes: [...facts.purposes],
    answers: listRoundAnswers(db, round.id),
  };
}
