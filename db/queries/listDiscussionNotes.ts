import { asc, eq } from 'drizzle-orm';
import type { DiscussionNote } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { discussionNote } from '../schemaAfterReveal';

/** Notes of an evaluation, oldest first. They are written after reveal only. */
export function listDiscussionNotes(db: Db, evaluationId: string): DiscussionNote[] {
  return db
    .select({
      id: discussionNote.id, seat: discussionNote.seatId, slotId: discussionNote.slotId, puppyId: discussionNote.puppyId, otherPuppyId: discussionNote.otherPuppyId,
      criterion: discussionNote.criterion, text: discussionNote.text, at: discussionNote.at,
    })
    .from(discussionNote)
    .where(eq(discussionNote.evaluationId, evaluationId))
    .orderBy(asc(discussionNote.at), asc(discussionNote.id))
    .all();
}
