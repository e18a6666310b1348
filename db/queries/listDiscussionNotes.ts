import { and, asc, eq, or } from 'drizzle-orm';
import type { DiscussionNote } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { discussionNote } from '../schemaAfterReveal';
import { isHeld, isReleased, type MarkReader } from './isReleased';
import { sameIssue } from './sameIssue';

/** Notes of an evaluation that may be told, and the reader's own, oldest first. They are written after reveal only. */
export function listDiscussionNotes(db: Db, evaluationId: string, { seatId, onlyDevice }: MarkReader): DiscussionNote[] {
  const own = seatId === null ? undefined : and(eq(discussionNote.seatId, seatId), onlyDevice === null ? undefined : sameIssue(db, discussionNote.deviceId, onlyDevice));
  return db
    .select({
      id: discussionNote.id, seat: discussionNote.seatId, slotId: discussionNote.slotId, puppyId: discussionNote.puppyId, otherPuppyId: discussionNote.otherPuppyId,
      criterion: discussionNote.criterion, text: discussionNote.text, at: discussionNote.at, held: isHeld(db, evaluationId, discussionNote),
    })
    .from(discussionNote)
    .where(and(eq(discussionNote.evaluationId, evaluationId), or(isReleased(db, evaluationId, discussionNote), own)))
    .orderBy(asc(discussionNote.at), asc(discussionNote.id))
    .all()
    .map((note) => ({ ...note, held: note.held === 1 }));
}
