import { and, eq, ne } from 'drizzle-orm';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { lookBatch } from '../schemaAfterReveal';

/** Reveals a batch that is open, closing it in the same step, or that a restore brought back closed; a second time is wrong-phase. */
export function revealLookBatch(db: Db, batchId: string, at: number): void {
  const changed = db
    .update(lookBatch)
    .set({ state: 'revealed', revealedAt: at })
    .where(and(eq(lookBatch.id, batchId), ne(lookBatch.state, 'revealed')))
    .run();
  if (changed.changes !== 1) throw new DomainError('wrong-phase');
}
