import { and, asc, eq, inArray, isNull, max, or, sql } from 'drizzle-orm';
import type { RaisedHands } from '#lib/contract/decisionView';
import type { SeatInput } from '#lib/contract/setup';
import type { Snapshot } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import type { SeatFacts } from '#lib/evaluation/facts';
import type { Db } from '../open';
import { prepareOnce } from '../transaction';
import { answer, entry } from '../schema/entries';
import { device, link } from '../schema/devices';
import { round, seatRound } from '../schema/rounds';
import { seat } from '../schema/seats';
import { slot } from '../schema/plans';
import { removal } from '../schema/seats';
import { decision, discussionNote } from '../schema/decisions';
import { snapshot } from '../schema/results';
import { photoPointer } from '../schema/photos';
import { raisedHand } from '../schema/decisions';
import { sameIssue } from './devices';
import { isHeld, isReleased, type MarkReader } from './isReleased';

const seatRows = prepareOnce((db) => {
  const held = db
    .select({ n: sql<number>`count(*)` })
    .from(device)
    .where(and(eq(device.seatId, seat.id), isNull(device.revokedAt)));
  const ever = db
    .select({ n: sql<number>`coalesce(max(${device.generation}), 0)` })
    .from(device)
    .where(eq(device.seatId, seat.id));
  const waiting = db
    .select({ n: sql<number>`count(*)` })
    .from(link)
    .where(and(eq(link.seatId, seat.id), eq(link.kind, 'seat'), isNull(link.usedAt)));
  return db
    .select({
      row: seat,
      held: sql<number>`(${held})`,
      ever: sql<number>`(${ever})`,
      waiting: sql<number>`(${waiting})`,
      lockedAt: seatRound.lockedAt,
    })
    .from(seat)
    .leftJoin(seatRound, and(eq(seatRound.seatId, seat.id), eq(seatRound.roundId, sql.placeholder('roundId'))))
    .where(eq(seat.evaluationId, sql.placeholder('evaluationId')))
    .orderBy(asc(seat.position))
    .prepare();
});

/** The seats of an evaluation with where they stand in one round; `roundId` null while there is none. */
export function listSeatFacts(db: Db, evaluationId: string, roundId: string | null): SeatFacts[] {
  return seatRows(db)
    .all({ evaluationId, roundId: roundId ?? '' })
    .map(({ row, held: devices, ever: issued, waiting: links, lockedAt }) => ({
      id: row.id,
      position: row.position,
      label: row.label,
      kind: row.kind,
      leads: row.leads === 1,
      picks: row.picks === 1,
      organises: row.organises === 1,
      reads: row.reads === 1,
      paper: row.paper === 1,
      interest: row.interest,
      owner: row.owner === 1,
      joined: row.owner === 1 || devices > 0,
      issued: row.owner === 1 ? 0 : issued,
      lockedAt,
      linkWaiting: links > 0,
    }));
}

/** Takes a seat nobody has joined from the panel, with its unused links. Foreign keys refuse it once anything hangs on it. */
export function deleteSeat(db: Db, id: string): void {
  db.delete(link).where(eq(link.seatId, id)).run();
  db.delete(seat).where(eq(seat.id, id)).run();
}

/** Which evaluation a seat belongs to, and what it is called there. Throws not-found. */
export function getSeat(db: Db, id: string) {
  const row = db
    .select({ id: seat.id, label: seat.label, evaluationId: seat.evaluationId, owner: seat.owner })
    .from(seat)
    .where(eq(seat.id, id))
    .get();
  if (!row) throw new DomainError('not-found');
  return { ...row, owner: row.owner === 1 };
}

/** Adds a seat at the end of the panel, or changes what was typed about it. */
export function saveSeat(
  db: Db,
  row: { readonly id: string; readonly evaluationId: string; readonly owner: boolean; readonly input: SeatInput },
): void {
  const last = db
    .select({ position: max(seat.position) })
    .from(seat)
    .where(eq(seat.evaluationId, row.evaluationId))
    .get();
  const { label, kind, interest } = row.input;
  const set = {
    label,
    kind,
    interest,
    leads: row.input.leads ? 1 : 0,
    picks: row.input.picks ? 1 : 0,
    organises: row.input.organises ? 1 : 0,
    reads: row.input.reads ? 1 : 0,
    paper: row.input.paper ? 1 : 0,
  };
  db.insert(seat)
    .values({
      id: row.id,
      evaluationId: row.evaluationId,
      position: (last?.position ?? -1) + 1,
      owner: row.owner ? 1 : 0,
      ...set,
    })
    .onConflictDoUpdate({ target: seat.id, set })
    .run();
}

/** The seats of an evaluation whose person's words were removed. */
export function listRemovedSeats(db: Db, evaluationId: string): ReadonlySet<string> {
  const rows = db
    .select({ id: removal.seatId })
    .from(removal)
    .innerJoin(seat, eq(seat.id, removal.seatId))
    .where(eq(seat.evaluationId, evaluationId))
    .all();
  return new Set(rows.map(({ id }) => id));
}

type WordsRemoved = {
  readonly seatId: string;
  readonly evaluationId: string;
  readonly label: string;
  readonly newLabel: string;
  /** Notes stay as they were said: where nobody is told whose they are, overwriting them would tell. */
  readonly notesStay: boolean;
  readonly at: number;
};

const removed = 'removed';
const withoutWords = (body: typeof entry.body | typeof answer.body, notesStay: boolean) =>
  notesStay
    ? sql`json_replace(${body}, '$.why', ${removed}, '$.reason', ${removed})`
    : sql`json_replace(${body}, '$.text', ${removed}, '$.why', ${removed}, '$.reason', ${removed})`;

/**
 * Overwrites what names a person or was written freely by it: a seat's label, its declared interest, its notes and reasons.
 * Scores, checks and choices stay. Within a transaction: the triggers of append-only tables open for this evaluation's words
 * alone while the removal is under way. Answers the snapshots as they stand now, in the order of their rounds.
 */
export function removeWords(
  db: Db,
  { seatId, evaluationId, label, newLabel, notesStay, at }: WordsRemoved,
): readonly Snapshot[] {
  db.insert(removal).values({ seatId, at }).run();
  db.update(seat).set({ label: newLabel, interest: '' }).where(eq(seat.id, seatId)).run();
  db.update(slot).set({ taker: removed }).where(eq(slot.seatId, seatId)).run();
  db.update(entry)
    .set({ body: withoutWords(entry.body, notesStay) })
    .where(eq(entry.seatId, seatId))
    .run();
  db.update(answer)
    .set({ body: withoutWords(answer.body, notesStay) })
    .where(eq(answer.seatId, seatId))
    .run();
  if (!notesStay) {
    db.update(discussionNote).set({ text: removed }).where(eq(discussionNote.seatId, seatId)).run();
    db.update(photoPointer).set({ note: removed }).where(eq(photoPointer.seatId, seatId)).run();
  }
  db.update(decision)
    .set({ by: newLabel, reason: removed })
    .where(and(eq(decision.evaluationId, evaluationId), eq(decision.by, label)))
    .run();
  const rounds = db.select({ id: round.id }).from(round).where(eq(round.evaluationId, evaluationId));
  const bodies = db
    .select({ id: snapshot.id, body: snapshot.body })
    .from(snapshot)
    .innerJoin(round, eq(round.id, snapshot.roundId))
    .where(inArray(snapshot.roundId, rounds))
    .orderBy(asc(round.position))
    .all();
  // As the reveal wrote it, not as a schema reads it: but for the words it stays the same to the byte, and bound as it was.
  const after = bodies.map(({ id, body }) => ({
    id,
    body: strip(JSON.parse(body) as Snapshot, { seatId, newLabel, notesStay }),
  }));
  for (const { id, body } of after)
    db.update(snapshot)
      .set({ body: JSON.stringify(body) })
      .where(eq(snapshot.id, id))
      .run();
  db.update(removal).set({ done: 1 }).where(eq(removal.seatId, seatId)).run();
  return after.map(({ body }) => body);
}

function strip(
  body: Snapshot,
  { seatId, newLabel, notesStay }: Pick<WordsRemoved, 'seatId' | 'newLabel' | 'notesStay'>,
): Snapshot {
  return {
    ...body,
    seats: body.seats.map((one) => (one.id === seatId ? { ...one, label: newLabel } : one)),
    slots: body.slots.map((one) => (one.seatId === seatId ? { ...one, taker: removed } : one)),
    answers: body.answers.map((one) =>
      one.seatId === seatId ? { ...one, body: stripBody(one.body, notesStay) } : one,
    ),
  };
}

function stripBody(body: Snapshot['answers'][number]['body'], notesStay: boolean): Snapshot['answers'][number]['body'] {
  if (body.kind === 'note') return notesStay ? body : { ...body, text: removed };
  if (body.kind === 'fair') return { ...body, why: removed };
  return body.kind === 'choice' ? { ...body, reason: removed } : body;
}

type Seat = { readonly evaluationId: string; readonly seatId: string };

/** A hand goes up once, keeping its place in the queue; asked again it is that of the device that asked last. */
export function raiseHand(db: Db, row: typeof raisedHand.$inferInsert): void {
  db.insert(raisedHand)
    .values(row)
    .onConflictDoUpdate({ target: [raisedHand.evaluationId, raisedHand.seatId], set: { deviceId: row.deviceId } })
    .run();
}

export function lowerHand(db: Db, { evaluationId, seatId }: Seat): void {
  db.delete(raisedHand)
    .where(and(eq(raisedHand.evaluationId, evaluationId), eq(raisedHand.seatId, seatId)))
    .run();
}

/** Whether a seat's hand is up and its own affair still; null while it is down. */
export function findHand(db: Db, { evaluationId, seatId }: Seat): { readonly held: boolean } | null {
  const row = db
    .select({ held: isHeld(db, evaluationId, raisedHand) })
    .from(raisedHand)
    .where(and(eq(raisedHand.evaluationId, evaluationId), eq(raisedHand.seatId, seatId)))
    .get();
  return row ? { held: row.held === 1 } : null;
}

/** Seats that ask to speak, the longest waiting first: those that may be told, and the reader's own. */
export function listRaisedHands(db: Db, evaluationId: string, { seatId, onlyDevice }: MarkReader): RaisedHands {
  const own =
    seatId === null
      ? undefined
      : and(
          eq(raisedHand.seatId, seatId),
          onlyDevice === null ? undefined : sameIssue(db, raisedHand.deviceId, onlyDevice),
        );
  const rows = db
    .select({ seatId: raisedHand.seatId, held: isHeld(db, evaluationId, raisedHand) })
    .from(raisedHand)
    .where(and(eq(raisedHand.evaluationId, evaluationId), or(isReleased(db, evaluationId, raisedHand), own)))
    .orderBy(asc(raisedHand.at), asc(raisedHand.seatId))
    .all();
  return { waiting: rows.map((row) => row.seatId), held: rows.some((row) => row.held === 1) };
}
