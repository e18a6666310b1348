import { and, count, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { lookBatch } from '../schemaAfterReveal';

/** How many batches of second looks have been closed, by slot. */
export function closedBatches(db: Db, evaluationId: string): Record<string, number> {
  const rows = db
    .select({ slotId: lookBatch.slotId, n: count() })
    .from(lookBatch)
    .where(and(eq(lookBatch.evaluationId, evaluationId), eq(lookBatch.state, 'revealed')))
    .groupBy(lookBatch.slotId)
    .all();
  return Object.fromEntries(rows.map(({ slotId, n }) => [slotId, n]));
}
