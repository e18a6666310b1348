import { findEntry } from '#db/queries/findEntry';
import { saveEntry } from '#db/queries/saveEntry';
import type { Entry, EntryOutcome } from '#lib/contract/entry';
import { DomainError } from '#lib/errors';
import { decideEntry } from '#lib/evaluation/decideEntry';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

export type Submission = {
  readonly evaluationId: string;
  readonly seatId: string;
  readonly deviceId: string;
  readonly entries: readonly Entry[];
};

/**
 * Takes what one device has in hand, in one transaction: each entry is answered on its own, so that one bad entry does
 * not hold up the rest. An entry seen before is answered as the first time (SC2).
 */
export function submitEntries(runtime: Runtime, { evaluationId, ...submission }: Submission): EntryOutcome[] {
  return writeEvaluation(runtime, evaluationId, ({ facts, at, touchSeat }) => {
    const seat = facts.seats.find((one) => one.id === submission.seatId);
    if (!seat) throw new DomainError('not-allowed');
    const outcomes = submission.entries.map((entry) => keep({ runtime, facts, seat, at, deviceId: submission.deviceId }, entry));
    if (outcomes.some((outcome) => outcome.fresh)) touchSeat(seat.id);
    return outcomes.map(({ id, status, code }) => ({ id, status, code }));
  });
}

type Hand = { readonly runtime: Runtime; readonly facts: EvaluationFacts; readonly seat: SeatFacts; readonly at: number; readonly deviceId: string };

function keep({ runtime, facts, seat, at, deviceId }: Hand, entry: Entry): EntryOutcome & { readonly fresh: boolean } {
  const seen = findEntry(runtime.db, entry.id);
  if (seen) {
    const own = seen.seatId === seat.id;
    return { id: entry.id, status: own ? seen.status : 'refused', code: own ? null : 'bad-input', fresh: false };
  }
  const verdict = decideEntry(facts, seat, entry);
  if ('refuse' in verdict || !facts.round) {
    return { id: entry.id, status: 'refused', code: 'refuse' in verdict ? verdict.refuse : 'wrong-phase', fresh: false };
  }
  const late = verdict.keep === 'late';
  const status = saveEntry(runtime.db, { entry, roundId: facts.round.id, seatId: seat.id, deviceId, late, receivedAt: at });
  return { id: entry.id, status, code: null, fresh: true };
}
