import { hash } from 'node:crypto';
import { and, asc, eq } from 'drizzle-orm';
import type { HeldEvaluation, HeldRound, HeldSeat } from '#lib/proof/heldState';
import type { Db } from '../../open';
import { device } from '../../schema/devices';
import { entry } from '../../schema/entries';
import { evaluation } from '../../schema/evaluations';
import { round, seatRound } from '../../schema/rounds';
import { seat } from '../../schema/seats';
import { homeLink } from '../../schema/devices';
import { removal } from '../../schema/seats';
import { lookBatch } from '../../schema/looks';
import { snapshot } from '../../schema/results';
import { commitment } from '../../schema/commitments';
import { confirmation } from '../../schema/plans';
import {
  addendumHashes,
  agreedHash,
  clearanceHashes,
  decisionHashes,
  hashOf,
  importedHash,
  looksHash,
  notesHash,
  noteWordsHash,
  reasonHashes,
  rowsOf,
  seatHash,
  termsHash,
  typedHashes,
  withdrawalHashes,
} from '../boundHashes';

/** Everything a data file holds that its record promises, one evaluation after the other. Reads score data: only for the check of a data file. */
export function readHeld(db: Db): HeldEvaluation[] {
  return db
    .select({ id: evaluation.id, phase: evaluation.phase })
    .from(evaluation)
    .orderBy(asc(evaluation.id))
    .all()
    .map(({ id, phase }) => {
      const [ids, reasons] = [
        rowsOf(db, 'SELECT id FROM decision WHERE evaluation_id = ? ORDER BY seq', id),
        reasonHashes(db, id),
      ];
      return {
        id,
        phase,
        rounds: heldRounds(db, id),
        seats: heldSeats(db, id),
        confirmed: db
          .select({ seat: confirmation.seatId })
          .from(confirmation)
          .where(eq(confirmation.evaluationId, id))
          .all()
          .map((row) => row.seat),
        withdrawals: withdrawalHashes(db, id),
        typed: typedHashes(db, id),
        wordsRemoved: db
          .select({ seat: removal.seatId })
          .from(removal)
          .innerJoin(seat, eq(seat.id, removal.seatId))
          .where(eq(seat.evaluationId, id))
          .all()
          .map((row) => row.seat),
        batches: heldBatches(db, id),
        clearances: clearanceHashes(db, id),
        addenda: addendumHashes(db, id),
        decisions: decisionHashes(db, id).map((decision, at) => ({
          id: String(ids[at]?.[0]),
          decision,
          reason: reasons[at] ?? '',
        })),
        notes: { notes: notesHash(db, id), noteWords: noteWordsHash(db, id) },
        imported: [importedHash(db, id)].filter((hash) => hash !== null),
        homes: db.select({ at: homeLink.createdAt }).from(homeLink).where(eq(homeLink.evaluationId, id)).all().length,
      };
    });
}

function heldRounds(db: Db, evaluationId: string): HeldRound[] {
  const rows = db
    .select({ id: round.id, occasion: round.occasion, state: round.state })
    .from(round)
    .where(eq(round.evaluationId, evaluationId))
    .orderBy(asc(round.position))
    .all();
  return rows.map((row) => {
    const body = db.select({ body: snapshot.body }).from(snapshot).where(eq(snapshot.roundId, row.id)).get()?.body;
    const commitments = db
      .select({ seat: commitment.seatId, hash: commitment.hash, voidedAt: commitment.voidedAt })
      .from(commitment)
      .where(eq(commitment.roundId, row.id))
      .all();
    const locks = db
      .select({ seat: seatRound.seatId, lockedAt: seatRound.lockedAt })
      .from(seatRound)
      .where(eq(seatRound.roundId, row.id))
      .all();
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
  const rows = db
    .select({ id: seat.id, owner: seat.owner })
    .from(seat)
    .where(eq(seat.evaluationId, evaluationId))
    .orderBy(asc(seat.position))
    .all();
  return rows.map(({ id, owner }) => {
    const devices = db
      .select({
        generation: device.generation,
        cameBy: device.cameBy,
        begun: device.createdAt,
        ended: device.revokedAt,
      })
      .from(device)
      .where(eq(device.seatId, id))
      .all();
    return {
      id,
      owner: owner === 1,
      seat: seatHash(db, id),
      issued: Math.max(0, ...devices.map((one) => one.generation)),
      letIn: devices.filter((one) => one.cameBy === 'approval').length,
      sessions: devices.map(({ begun, ended }) => ({ begun, ended })),
      enteredAt: (at) =>
        db
          .select({ id: entry.id })
          .from(entry)
          .where(and(eq(entry.seatId, id), eq(entry.receivedAt, at)))
          .limit(1)
          .all().length > 0,
    };
  });
}

function heldBatches(db: Db, evaluationId: string): HeldEvaluation['batches'] {
  const rows = db
    .select({ id: lookBatch.id, state: lookBatch.state })
    .from(lookBatch)
    .where(eq(lookBatch.evaluationId, evaluationId))
    .orderBy(asc(lookBatch.position))
    .all();
  return rows.map((row) => ({ ...row, looks: looksHash(db, row.id), answers: answersHash(db, row.id) }));
}

/** What a removal of a person's words may change within JSON: these say nothing of a score. */
const wordKeys: ReadonlySet<string> = new Set(['label', 'taker', 'text', 'why', 'reason']);

/** The same JSON without any person's words, so that what is left is bound whatever is removed. Throws for no JSON. */
function withoutWords(json: string): string {
  return JSON.stringify(JSON.parse(json), (key, value: unknown) =>
    wordKeys.has(key) && typeof value === 'string' ? '' : value,
  );
}

/** A snapshot's scores, checks, choices and all else that no removal changes. */
export function scoresHash(snapshot: string): string {
  return hashOf('scores', withoutWords(snapshot));
}

/** Every answer given to a batch of second looks, changes of mind too. Their ids, known to the devices that made them, keep it from being guessed. */
export function answersHash(db: Db, batchId: string): string {
  const sql = `SELECT a.id, a.seq, a.look_id, a.seat_id, a.device_id, a.choice, a.criterion, a.made_at, a.received_at
    FROM look_answer a JOIN look l ON l.id = a.look_id WHERE l.batch_id = ? ORDER BY a.seq`;
  return hashOf('answers', rowsOf(db, sql, batchId));
}

type LateHashes = { readonly count: number; readonly late: string; readonly lateWords: string };

/** What came late to a round, as far as it came. Only for a revealed round: before that it tells of other seats' entries. */
export function lateHashes(db: Db, roundId: string): LateHashes {
  const sql = `SELECT id, seat_id, device_id, subject, field, counter, value, made_at, received_at, body FROM entry WHERE round_id = ? AND status = 'late' ORDER BY rowid`;
  const rows = rowsOf(db, sql, roundId);
  return {
    count: rows.length,
    late: hashOf(
      'late',
      rows.map((row) => [...row.slice(0, -1), withoutWords(String(row.at(-1)))]),
    ),
    lateWords: hashOf(
      'lateWords',
      rows.map((row) => [row[0], row.at(-1)]),
    ),
  };
}
