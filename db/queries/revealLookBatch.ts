import { and, eq } from 'drizzle-orm';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { lookBatch } from '../schemaAfterReveal';

/** Closes and reveals a batch in one step; a second time is wrong-phase. */
export function revealLookBatch(db: Db, batchId: string, at: number): void {
  const changed = db
    .update(lookBatch)
    .set({ state: 'revealed', revealedAt: at })
    .where(and(eq(lookBatch.id, batchId), eq(lookBatch.state, 'open')))
    .run();
  if (changed.changes !== 1) throw new DomainError('wrong-phase');
}
