import { createHash } from 'node:crypto';
import { findEntry, findStanding, insertPracticeCard, listHeldAnswers, saveEntry } from '#db/queries/entries';
import { setRoundState, setSeatLock } from '#db/queries/rounds';
import type { EntryOutcome, SentEntry } from '#lib/contract/entry';
import type { PracticeAnswer } from '#lib/contract/practice';
import { DomainError } from '#lib/errors';
import { type CardMove, decideCardMove, swapCards } from '#lib/evaluation/cards';
import { type Arrival, entryField, type Receipt, receiveEntry } from '#lib/evaluation/entries';
import type { EvaluationFacts, SeatFacts } from '#lib/evaluation/facts';
import { decidePractice } from '#lib/evaluation/practice';
import { decideLock, everySeatLocked } from '#lib/evaluation/rounds';
import { recordLate } from '../reveal/bindings';
import { revealClosed } from '../reveal/revealRound';
import type { Runtime } from '../runtime';
import { commitLock, type Promised, publishCommitments } from '../write/commitCards';
import {
  type Acting,
  type Asker,
  change,
  type EvaluationWrite,
  ownSeat,
  refuse,
  seatName,
} from '../write/writeEvaluation';

type Submission = { readonly evaluationId: string; readonly entries: readonly SentEntry[] };

/**
 * Takes what one device has in hand, in one transaction: each entry is answered on its own, so that one bad entry does
 * not hold up the rest. An entry seen before is answered as the first time (SC2). How many were sent again because these
 * data, restored from a backup, lacked them goes into the record. Throws not-found for strangers.
 */
export function submitEntries(ctx: Asker, { evaluationId, entries }: Submission): EntryOutcome[] {
  return change({ ctx, id: evaluationId }, (write) => takeEntries(ctx, write, entries));
}

/** The same within a change that is under way. */
export function takeEntries(
  { runtime, device }: Asker,
  write: EvaluationWrite & Acting,
  entries: readonly SentEntry[],
): EntryOutcome[] {
  const { db } = runtime;
  const { facts, at, touchSeat, touchAll, note } = write;
  const seat = ownSeat(write);
  const outcomes: EntryOutcome[] = [];
  const lateIn = new Set<string>();
  let lacked = 0;
  for (const { again, ...entry } of entries) {
    const receipt = receive(runtime, { facts, seat, deviceId: device.id, entry });
    if (receipt.keepIn !== null) {
      saveEntry(db, {
        entry,
        roundId: receipt.keepIn,
        seatId: seat.id,
        deviceId: device.id,
        status: receipt.outcome.status,
        receivedAt: at,
      });
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

type Move = CardMove & { readonly evaluationId: string; readonly moveId: string };

/**
 * Lets two of a seat's own cards change places, by entries on top of all that was said (SC3); the record says which
 * puppies, never what. The entries' ids come from the move's, so that asking again changes nothing (SC2).
 */
export function moveCard(ctx: Asker, { evaluationId, from, to, moveId }: Move): void {
  const { db } = ctx.runtime;
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, at, touchAll, touchSeat, note } = write;
    const { round } = facts;
    const seat = ownSeat(write);
    const seatId = seat.id;
    if (!round) throw new DomainError('wrong-phase');
    const idOf = ({ subject, field }: { readonly subject: string; readonly field: string }) =>
      createHash('sha256')
        .update(JSON.stringify([moveId, seatId, subject, field]))
        .digest('hex')
        .slice(0, 32);
    const held = listHeldAnswers(db, { seatId, roundId: round.id, subjects: [from, to] });
    if (held.some((answer) => findEntry(db, idOf(answer)))) return;
    refuse(decideCardMove(facts, seat, { from, to }));
    const puppyOf = (subject: string) =>
      facts.puppies.find((puppy) => round.showings.some((one) => one.id === subject && one.puppyId === puppy.id));
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

type Lock = { readonly evaluationId: string; readonly promised: Promised };

/** Locks one seat's cards as its device promised them; the last awaited lock closes the round. A backup follows. */
export function lockSeat(ctx: Asker, { evaluationId, promised }: Lock): void {
  const { runtime, device } = ctx;
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, at, note } = write;
    const seat = ownSeat(write);
    refuse(decideLock(facts, seat.id));
    if (!facts.round) throw new DomainError('wrong-phase');
    commitLock(runtime, { round: facts.round, seat, deviceId: device.id, promised, at });
    note(seatName(seat.id), 'seat-locked');
    putLock(runtime, write, seat);
  });
  runtime.backups.ask();
}

/** The lock itself, once the seat's cards are bound and the record says who locked; the last awaited one closes the round. */
export function putLock(runtime: Runtime, { facts, at, touchAll, note }: EvaluationWrite, seat: SeatFacts): void {
  const { db } = runtime;
  if (!facts.round) throw new DomainError('wrong-phase');
  setSeatLock(db, { roundId: facts.round.id, seatId: seat.id, lockedAt: at });
  const after = withLock(facts, seat, at);
  if (everySeatLocked(after)) {
    setRoundState(db, facts.round.id, { from: 'open', to: 'closed', at });
    note('the last lock', 'round-closed');
    publishCommitments(runtime, after, { at, note });
    // A lesson is shown to both at the mentor's lock, which is the last.
    if (facts.round.occasion === 'lesson') revealClosed(runtime, { facts: after, at, note, actor: seatName(seat.id) });
  }
  touchAll();
}

/** The facts as they are once this seat has locked, which is all that its lock changes of them. */
function withLock(facts: EvaluationFacts, { id }: SeatFacts, lockedAt: number): EvaluationFacts {
  return { ...facts, seats: facts.seats.map((seat) => (seat.id === id ? { ...seat, lockedAt } : seat)) };
}

type Practice = { readonly evaluationId: string; readonly answers: readonly PracticeAnswer[] };

/** Locks a seat's practice, once: from here on it sees the practice of the others that have locked theirs. */
export function lockPractice(ctx: Asker, { evaluationId, answers }: Practice): void {
  change({ ctx, id: evaluationId }, (write) => {
    const { facts, at, touchAll } = write;
    const seat = ownSeat(write);
    refuse(decidePractice(facts, seat, answers));
    if (
      !insertPracticeCard(ctx.runtime.db, {
        evaluationId,
        seatId: seat.id,
        deviceId: ctx.device.id,
        answers: JSON.stringify(answers),
        lockedAt: at,
      })
    )
      throw new DomainError('wrong-phase');
    touchAll();
  });
}
