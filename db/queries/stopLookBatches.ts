import { and, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { lookBatch } from '../schemaAfterReveal';

/** Closes the open batches of an evaluation that are not among `but`, without showing an answer; says for which places they were. */
export function stopLookBatches(db: Db, evaluationId: string, but: ReadonlySet<string>): string[] {
  return db
    .select({ id: lookBatch.id, slotId: lookBatch.slotId })
    .from(lookBatch)
    .where(and(eq(lookBatch.evaluationId, evaluationId), eq(lookBatch.state, 'open')))
    .all()
    .filter(({ id }) => !but.has(id))
    .map(({ id, slotId }) => {
      db.update(lookBatch).set({ state: 'closed' }).where(eq(lookBatch.id, id)).run();
      return slotId;
    });
}
