import type { Device } from '#db/queries/findDevice';
import { findEntry } from '#db/queries/findEntry';
import { findStanding } from '#db/queries/findStanding';
import { saveEntry } from '#db/queries/saveEntry';
import type { EntryOutcome, SentEntry } from '#lib/contract/entry';
import { DomainError } from '#lib/errors';
import { entryField } from '#lib/evaluation/entryField';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { receiveEntry, type Arrival, type Receipt } from '#lib/evaluation/receiveEntry';
import { seatOf } from '#lib/evaluation/seatOf';
import { recordLate } from '../reveal/bindings';
import type { Runtime } from '../runtime';
import { seatName } from './seatName';
import { writeEvaluation } from './writeEvaluation';

/** A device that scores, or whose hand a file of scores is. */
export type EntryDevice = Pick<Device, 'id' | 'owner' | 'seatId'>;

export type Submission = {
  readonly evaluationId: string;
  readonly from: EntryDevice;
  readonly entries: readonly SentEntry[];
};

/**
 * Takes what one device has in hand, in one transaction: each entry is answered on its own, so that one bad entry does
 * not hold up the rest. An entry seen before is answered as the first time (SC2). How many were sent again because these
 * data, restored from a backup, lacked them goes into the record. Throws not-found for strangers.
 */
export function submitEntries(runtime: Runtime, { evaluationId, from, entries }: Submission): EntryOutcome[] {
  const { db } = runtime;
  return writeEvaluation(runtime, evaluationId, ({ facts, at, touchSeat, touchAll, note }) => {
    const seat = seatOf(facts, from);
    if (!seat) throw new DomainError(from.owner ? 'not-allowed' : 'not-found');
    const outcomes: EntryOutcome[] = [];
    const lateIn = new Set<string>();
    let lacked = 0;
    for (const { again, ...entry } of entries) {
      const receipt = receive(runtime, { facts, seat, deviceId: from.id, entry });
      if (receipt.keepIn !== null) {
        saveEntry(db, { entry, roundId: receipt.keepIn, seatId: seat.id, deviceId: from.id, status: receipt.outcome.status, receivedAt: at });
        touchSeat(seat.id);
        if (again === true) lacked += 1;
        // The board counts what came late: whoever has it open shall see that one more did.
        if (receipt.outcome.status === 'late' && isRevealed(facts, receipt.keepIn)) {
          touchAll();
          lateIn.add(receipt.keepIn);
        }
      }
      outcomes.push(receipt.outcome);
    }
    for (const id of lateIn) recordLate(db, { facts, round: { id }, note });
    if (lacked > 0) {
      note(seatName(seat.id), 'entries-sent-again', String(lacked));
      touchAll();
    }
    return outcomes;
  });
}

function isRevealed({ round, earlierRounds }: EvaluationFacts, roundId: string): boolean {
  return [...earlierRounds, ...(round ? [round] : [])].some((one) => one.id === roundId && one.state === 'revealed');
}

function receive({ db }: Runtime, arrival: Arrival): Receipt {
  const { seat, entry } = arrival;
  const field = entryField(entry.body);
  return receiveEntry(arrival, {
    seen: findEntry(db, entry.id) ?? null,
    standingIn: (roundId) => findStanding(db, { roundId, seatId: seat.id, subject: entry.subject, field }),
  });
}
