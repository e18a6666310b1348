import { and, asc, eq, max, or } from 'drizzle-orm';
import type { Decision, DiscussionNote, HoldChoice } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { clearance, decision, discussionNote } from '../schema/decisions';
import { sameIssue } from './devices';
import { isHeld, isReleased, type MarkReader } from './isReleased';

/** The decision that stands for each slot; a slot whose decision was taken back is absent. With `first`, after so many rows. */
export function listDecisions(db: Db, evaluationId: string, first = Infinity): Decision[] {
  const rows = db
    .select()
    .from(decision)
    .where(eq(decision.evaluationId, evaluationId))
    .orderBy(asc(decision.seq))
    .all();
  const standing = new Map(rows.slice(0, first).map((row) => [row.slotId, row]));
  return [...standing.values()]
    .filter((row) => row.outcome !== 'taken-back')
    .map((row) => ({
      slotId: row.slotId,
      puppyId: row.puppyId,
      by: row.by,
      reason: row.reason,
      preference: row.preference === 1,
      followedPanel: row.followedPanel === null ? null : row.followedPanel === 1,
      at: row.at,
    }));
}

type NewDecision = Decision & { readonly id: string; readonly evaluationId: string; readonly takenBack?: true };

/** Appends a decision (a null puppy leaves the place empty), or its taking back. */
export function insertDecision(db: Db, { takenBack, ...row }: NewDecision): void {
  const last = db
    .select({ seq: max(decision.seq) })
    .from(decision)
    .get();
  const followedPanel = row.followedPanel === null ? null : row.followedPanel ? 1 : 0;
  const outcome = takenBack ? 'taken-back' : row.puppyId === null ? 'nobody' : 'picked';
  db.insert(decision)
    .values({ ...row, outcome, seq: (last?.seq ?? 0) + 1, preference: row.preference ? 1 : 0, followedPanel })
    .run();
}

type NewAnswer = {
  readonly id: string;
  readonly evaluationId: string;
  readonly puppyId: string;
  readonly check: string;
  readonly answer: string;
  readonly by: string;
  readonly choice: HoldChoice;
  readonly at: number;
};

/** Appends a veterinary answer to a hold; the same id again is refused by the table (SC2). */
export function insertClearance(db: Db, { choice, ...row }: NewAnswer): void {
  db.insert(clearance)
    .values({ ...row, ...choiceColumns(choice) })
    .run();
}

/** Veterinary answers of an evaluation, in the order in which they came. */
export function listClearances(db: Db, evaluationId: string) {
  const rows = db
    .select()
    .from(clearance)
    .where(eq(clearance.evaluationId, evaluationId))
    .orderBy(asc(clearance.seq))
    .all();
  return rows.map(({ puppyId, check, answer, by, at, ...row }) => ({
    puppyId,
    check,
    answer,
    by,
    at,
    choice: choiceOf(row),
  }));
}

/** Whether a veterinary answer was written under this id. */
export function isAnswered(db: Db, id: string): boolean {
  return db.select({ id: clearance.id }).from(clearance).where(eq(clearance.id, id)).get() !== undefined;
}

/** A choice as tables keep it. */
export function choiceColumns(choice: HoldChoice) {
  return { choice: choice.kind, againOn: choice.kind === 'again' ? choice.on : null };
}

type ChoiceColumns = { readonly choice: HoldChoice['kind'] | null; readonly againOn: string | null };

export function choiceOf({ choice, againOn }: ChoiceColumns): HoldChoice | null {
  if (choice !== 'again') return choice && { kind: choice };
  // The table's own CHECK gives every such row its day.
  return { kind: 'again', on: againOn ?? '' };
}

type NewNote = typeof discussionNote.$inferInsert;

/** Keeps a note; the same id again changes nothing (SC2). */
export function insertDiscussionNote(db: Db, row: NewNote): void {
  db.insert(discussionNote).values(row).onConflictDoNothing().run();
}

/** Notes of an evaluation that may be told, and the reader's own, oldest first. They are written after reveal only. */
export function listDiscussionNotes(
  db: Db,
  evaluationId: string,
  { seatId, onlyDevice }: MarkReader,
): DiscussionNote[] {
  const own =
    seatId === null
      ? undefined
      : and(
          eq(discussionNote.seatId, seatId),
          onlyDevice === null ? undefined : sameIssue(db, discussionNote.deviceId, onlyDevice),
        );
  return db
    .select({
      id: discussionNote.id,
      seat: discussionNote.seatId,
      slotId: discussionNote.slotId,
      puppyId: discussionNote.puppyId,
      otherPuppyId: discussionNote.otherPuppyId,
      criterion: discussionNote.criterion,
      text: discussionNote.text,
      at: discussionNote.at,
      held: isHeld(db, evaluationId, discussionNote),
    })
    .from(discussionNote)
    .where(and(eq(discussionNote.evaluationId, evaluationId), or(isReleased(db, evaluationId, discussionNote), own)))
    .orderBy(asc(discussionNote.at), asc(discussionNote.id))
    .all()
    .map((note) => ({ ...note, held: note.held === 1 }));
}

/** Whether a decision, or a taking back, was written under this id. */
export function isDecided(db: Db, id: string): boolean {
  return db.select({ id: decision.id }).from(decision).where(eq(decision.id, id)).get() !== undefined;
}
