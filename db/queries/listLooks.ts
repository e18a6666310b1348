import { asc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { look, lookBatch } from '../schemaAfterReveal';

export type LookRow = {
  readonly id: string;
  readonly batchId: string;
  readonly slotId: string;
  readonly medium: 'table' | 'photographs';
  readonly state: 'open' | 'closed' | 'revealed';
  readonly firstPuppyId: string;
  readonly secondPuppyId: string;
  readonly firstOnLeft: boolean;
  readonly repeat: boolean;
};

/** All second looks of an evaluation, oldest first, without a single answer. */
export function listLooks(db: Db, evaluationId: string): LookRow[] {
  return db
    .select({
      id: look.id, batchId: look.batchId, slotId: lookBatch.slotId, medium: lookBatch.medium, state: lookBatch.state,
      firstPuppyId: look.firstPuppyId, secondPuppyId: look.secondPuppyId, firstOnLeft: look.firstOnLeft, repeat: look.repeat,
    })
    .from(look)
    .innerJoin(lookBatch, eq(lookBatch.id, look.batchId))
    .where(eq(lookBatch.evaluationId, evaluationId))
    .orderBy(asc(lookBatch.position), asc(look.position))
    .all()
    .map((row) => ({ ...row, firstOnLeft: row.firstOnLeft === 1, repeat: row.repeat === 1 }));
}
