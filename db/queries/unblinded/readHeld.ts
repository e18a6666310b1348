import { hash } from 'node:crypto';
import { and, asc, eq } from 'drizzle-orm';
import type { HeldEvaluation, HeldRound, HeldSeat } from '#lib/proof/heldState';
import type { Db } from '../../open';
import { device, entry, evaluation, round, seat, seatRound } from '../../schema';
import { homeLink, removal } from '../../schemaAccess';
import { lookBatch, snapshot } from '../../schemaAfterReveal';
import { commitment } from '../../schemaCommitment';
import { confirmation } from '../../schemaPlan';
import { agreedHash, clearanceHashes, decisionHashes, looksHash, notesHash, noteWordsHash, reasonHashes, rowsOf, seatHash, termsHash, withdrawalHashes } from '../boundHashes';
import { answersHash, lateHashes, scoresHash } from './scoreHashes';

/** Everything a data file holds that its record promises, one evaluation after the other. Reads score data: only for the check of a data file. */
export function readHeld(db: Db): HeldEvaluation[] {
  return db
    .select({ id: evaluation.id, phase: evaluation.phase })
    .from(evaluation)
    .orderBy(asc(evaluation.id))
    .all()
    .map(({ id, phase }) => {
      const [ids, reasons] = [rowsOf(db, 'SELECT id FROM decision WHERE evaluation_id = ? ORDER BY seq', id), reasonHashes(db, id)];
      return {
        id,
        phase,
        rounds: heldRounds(db, id),
        seats: heldSeats(db, id),
        confirmed: db.select({ seat: confirmation.seatId }).from(confirmation).where(eq(confirmation.evaluationId, id)).all().map((row) => row.seat),
        withdrawals: withdrawalHashes(db, id),
        wordsRemoved: db.select({ seat: removal.seatId }).from(removal).innerJoin(seat, eq(seat.id, removal.seatId)).where(eq(seat.evaluationId, id)).all().map((row) => row.seat),
        batches: heldBatches(db, id),
        clearances: clearanceHashes(db, id),
        decisions: decisionHashes(db, id).map((decision, at) => ({ id: String(ids[at]?.[0]), decision, reason: reasons[at] ?? '' })),
        notes: { notes: notesHash(db, id), noteWords: noteWordsHash(db, id) },
        homes: db.select({ at: homeLink.createdAt }).from(homeLink).where(eq(homeLink.evaluationId, id)).all().length,
      };
    });
}

function heldRounds(db: Db, evaluationId: string): HeldRound[] {
  const rows = db.select({ id: round.id, occasion: round.occasion, state: round.state }).from(round).where(eq(round.evaluationId, evaluationId)).orderBy(asc(round.position)).all();
  return rows.map((row) => {
    const body = db.select({ body: snapshot.body }).from(snapshot).where(eq(snapshot.roundId, row.id)).get()?.body;
    const commitments = db.select({ seat: commitment.seatId, hash: commitment.hash, voidedAt: commitment.voidedAt }).from(commitment).where(eq(commitment.roundId, row.id)).all();
    const locks = db.select({ seat: seatRound.seatId, lockedAt: seatRound.lockedAt }).from(seatRound).where(eq(seatRound.roundId, row.id)).all();
    return {
      ...row,
      terms: termsHash(db, row.id),
      agreed: agreedHash(db, row.id),
      locked: locks.filter((lock) => lock.lockedAt !== null).map((lock) => lock.seat),
      commitments: commitments.map(({ voidedAt, ...one }) => ({ ...one, void: voidedAt !== null })),
      snapshot: body === undefined ? null : { snapshot: hash('sha256', body, 'hex'), scores: hashIfJson(body) },
      late: lateIfJson(db, row.id),
    };
  });
}

/** What can no longer be read is nothing that was ever bound. */
function hashIfJson(body: string): string {
  try {
    return scoresHash(body);
  } catch {
    return '';
  }
}

function lateIfJson(db: Db, roundId: string): HeldRound['late'] {
  try {
    return lateHashes(db, roundId);
  } catch {
    return { count: 1, late: '', lateWords: '' };
  }
}

function heldSeats(db: Db, evaluationId: string): HeldSeat[] {
  const rows = db.select({ id: seat.id, owner: seat.owner }).from(seat).where(eq(seat.evaluationId, evaluationId)).orderBy(asc(seat.position)).all();
  return rows.map(({ id, owner }) => {
    const devices = db.select({ generation: device.generation, cameBy: device.cameBy, begun: device.createdAt, ended: device.revokedAt }).from(device).where(eq(device.seatId, id)).all();
    return {
      id,
      owner: owner === 1,
      seat: seatHash(db, id),
      issued: Math.max(0, ...devices.map((one) => one.generation)),
      letIn: devices.filter((one) => one.cameBy === 'approval').length,
      sessions: devices.map(({ begun, ended }) => ({ begun, ended })),
      enteredAt: (at) => db.select({ id: entry.id }).from(entry).where(and(eq(entry.seatId, id), eq(entry.receivedAt, at))).limit(1).all().length > 0,
    };
  });
}

function heldBatches(db: Db, evaluationId: string): HeldEvaluation['batches'] {
  const rows = db.select({ id: lookBatch.id, state: lookBatch.state }).from(lookBatch).where(eq(lookBatch.evaluationId, evaluationId)).orderBy(asc(lookBatch.position)).all();
  return rows.map((row) => ({ ...row, looks: looksHash(db, row.id), answers: answersHash(db, row.id) }));
}
