import { and, asc, eq, inArray, sql } from 'drizzle-orm';
import type { Snapshot } from '#lib/contract/snapshot';
import type { Db } from '../open';
import { answer, entry, round, seat, slot } from '../schema';
import { removal } from '../schemaAccess';
import { decision, discussionNote, snapshot } from '../schemaAfterReveal';
import { photoPointer } from '../schemaPhoto';

export type WordsRemoved = {
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
export function removeWords(db: Db, { seatId, evaluationId, label, newLabel, notesStay, at }: WordsRemoved): readonly Snapshot[] {
  db.insert(removal).values({ seatId, at }).run();
  db.update(seat).set({ label: newLabel, interest: '' }).where(eq(seat.id, seatId)).run();
  db.update(slot).set({ taker: removed }).where(eq(slot.seatId, seatId)).run();
  db.update(entry).set({ body: withoutWords(entry.body, notesStay) }).where(eq(entry.seatId, seatId)).run();
  db.update(answer).set({ body: withoutWords(answer.body, notesStay) }).where(eq(answer.seatId, seatId)).run();
  if (!notesStay) {
    db.update(discussionNote).set({ text: removed }).where(eq(discussionNote.seatId, seatId)).run();
    db.update(photoPointer).set({ note: removed }).where(eq(photoPointer.seatId, seatId)).run();
  }
  db.update(decision).set({ by: newLabel, reason: removed }).where(and(eq(decision.evaluationId, evaluationId), eq(decision.by, label))).run();
  const rounds = db.select({ id: round.id }).from(round).where(eq(round.evaluationId, evaluationId));
  const bodies = db.select({ id: snapshot.id, body: snapshot.body }).from(snapshot).innerJoin(round, eq(round.id, snapshot.roundId)).where(inArray(snapshot.roundId, rounds)).orderBy(asc(round.position)).all();
  // As the reveal wrote it, not as a schema reads it: but for the words it stays the same to the byte, and bound as it was.
  const after = bodies.map(({ id, body }) => ({ id, body: strip(JSON.parse(body) as Snapshot, { seatId, newLabel, notesStay }) }));
  for (const { id, body } of after) db.update(snapshot).set({ body: JSON.stringify(body) }).where(eq(snapshot.id, id)).run();
  db.update(removal).set({ done: 1 }).where(eq(removal.seatId, seatId)).run();
  return after.map(({ body }) => body);
}

function strip(body: Snapshot, { seatId, newLabel, notesStay }: Pick<WordsRemoved, 'seatId' | 'newLabel' | 'notesStay'>): Snapshot {
  return {
    ...body,
    seats: body.seats.map((one) => (one.id === seatId ? { ...one, label: newLabel } : one)),
    slots: body.slots.map((one) => (one.seatId === seatId ? { ...one, taker: removed } : one)),
    answers: body.answers.map((one) => (one.seatId === seatId ? { ...one, body: stripBody(one.body, notesStay) } : one)),
  };
}

function stripBody(body: Snapshot['answers'][number]['body'], notesStay: boolean): Snapshot['answers'][number]['body'] {
  if (body.kind === 'note') return notesStay ? body : { ...body, text: removed };
  if (body.kind === 'fair') return { ...body, why: removed };
  return body.kind === 'choice' ? { ...body, reason: removed } : body;
}
