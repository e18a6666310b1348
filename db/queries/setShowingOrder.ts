import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { evaluation } from '../schema';

export function setShowingOrder(db: Db, evaluationId: string, puppyIds: readonly string[]): void {
  db.update(evaluation).set({ showingOrder: JSON.stringify(puppyIds) }).where(eq(evaluation.id, evaluationId)).run();
}
