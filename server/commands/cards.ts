import { createHash } from 'node:crypto';
import type { Device } from '#db/queries/devices';
import { findEntry, findStanding, insertPracticeCard, listHeldAnswers, saveEntry } from '#db/queries/entries';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { setRoundState, setSeatLock } from '#db/queries/rounds';
import type { EntryOutcome, SentEntry } from '#lib/contract/entry';
import type { PracticeAnswer } from '#lib/contract/practice';
import { DomainError } from '#lib/errors';
import { type CardMove, decideCardMove, swapCards } from '#lib/evaluation/cards';
import { type Arrival, entryField, type Receipt, receiveEntry } from '#lib/evaluation/entries';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { decidePractice } from '#lib/evaluation/practice';
import { decideLock, everySeatLocked } from '#lib/evaluation/rounds';
import { seatOf } from '#lib/evaluation/seats';
import { recordLate } from '../reveal/bindings';
import { revealClosed } from '../reveal/revealRound';
import type { Runtime } from '../runtime';
import { commitLock, type Promised, publishCommitments } from '../write/commitCards';
import { refuse, seatName, writeEvaluation } from '../write/writeEvaluation';

/** A device that scores, or whose hand a file of scores is. */
type EntryDevice = Pick<Device, 'id' | 'owner' | 'seatId'>;

type Submission = {
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

type Move = CardMove & { readonly evaluationId: string; readonly seatId: string; readonly moveId: string };

/**
 * Lets two of a seat's own cards change places, by entries on top of all that was said (SC3); the record says which
 * puppies, never what. The entries' ids come from the move's, so that asking again changes nothing (SC2).
 */
export function moveCard(runtime: Runtime, { evaluationId, seatId, from, to, moveId }: Move): void {
  const { db } = runtime;
  const idOf = ({ subject, field }: { readonly subject: string; readonly field: string }) =>
    createHash('sha256').update(JSON.stringify([moveId, seatId, subject, field])).digest('hex').slice(0, 32);
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll, touchSeat, note }) => {
    const { round } = facts;
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!round || !seat) throw new DomainError('wrong-phase');
    const held = listHeldAnswers(db, { seatId, roundId: round.id, subjects: [from, to] });
    if (held.some((answer) => findEntry(db, idOf(answer)))) return;
    refuse(decideCardMove(facts, seat, { from, to }));
    const puppyOf = (subject: string) => facts.puppies.find((puppy) => round.showings.some((one) => one.id === subject && one.puppyId === puppy.id));
    const sideOf = (subject: string) => ({ subject, bitch: puppyOf(subject)?.sex === 'bitch' });
    const swapped = swapCards(held, sideOf(from), sideOf(to));
    if (swapped.length === 0) throw new DomainError('bad-input');
    for (const { subject, field, counter, body, deviceId } of swapped) {
      const entry = { id: idOf({ subject, field }), subject, counter, madeAt: at, body };
      saveEntry(db, { entry, roundId: round.id, seatId, deviceId, status: 'applied', receivedAt: at });
    }
    note(seatName(seatId), 'card-moved', `${puppyOf(from)?.name ?? ''} and ${puppyOf(to)?.name ?? ''}`);
    touchSeat(seatId);
    touchAll();
  });
}

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

type Practice = { readonly evaluationId: string; readonly seatId: string; readonly deviceId: string; readonly answers: readonly PracticeAnswer[] };

/** Locks a seat's practice, once: from here on it sees the practice of the others that have locked theirs. */
export function lockPractice(runtime: Runtime, { evaluationId, seatId, deviceId, answers }: Practice): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll }) => {
    const seat = facts.seats.find((one) => one.id === seatId);
    if (!seat) throw new DomainError('not-allowed');
    refuse(decidePractice(facts, seat, answers));
    if (!insertPracticeCard(runtime.db, { evaluationId, seatId, deviceId, answers: JSON.stringify(answers), lockedAt: at })) throw new DomainError('wrong-phase');
    touchAll();
  });
}
