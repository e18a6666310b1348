import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { evaluation } from '../schema';

/** Which showing is on the table now. */
export function setTableShowing(db: Db, evaluationId: string, showingId: string | null): void {
  db.update(evaluation).set({ tableShowingId: showingId }).where(eq(evaluation.id, evaluationId)).run();
}
