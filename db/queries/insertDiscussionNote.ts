import type { Db } from '../open';
import { discussionNote } from '../schemaAfterReveal';

type NewNote = typeof discussionNote.$inferInsert;

/** Keeps a note; the same id again changes nothing (SC2). */
export function insertDiscussionNote(db: Db, row: NewNote): void {
  db.insert(discussionNote).values(row).onConflictDoNothing().run();
}
