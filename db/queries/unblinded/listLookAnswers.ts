import { asc, eq } from 'drizzle-orm';
import type { Db } from '../../open';
import { look, lookAnswer, lookBatch } from '../../schemaAfterReveal';

export type LookAnswerRow = {
  readonly lookId: string;
  readonly batchId: string;
  readonly seatId: string;
  readonly choice: 'first' | 'second' | 'tie';
  readonly criterion: string | null;
};

/** Every seat's newest answer to each look of an evaluation, for batches already revealed. Only server/reveal may call this. */
export function listLookAnswers(db: Db, evaluationId: string): LookAnswerRow[] {
  const rows = db
    .select({ state: lookBatch.state, batchId: look.batchId, lookId: lookAnswer.lookId, seatId: lookAnswer.seatId, choice: lookAnswer.choice, criterion: lookAnswer.criterion })
    .from(lookAnswer)
    .innerJoin(look, eq(look.id, lookAnswer.lookId))
    .innerJoin(lookBatch, eq(lookBatch.id, look.batchId))
    .where(eq(lookBatch.evaluationId, evaluationId))
    .orderBy(asc(lookAnswer.seq))
    .all();
  const newest = new Map<string, LookAnswerRow>();
  for (const { state, ...row } of rows) if (state === 'revealed') newest.set(`${row.lookId} ${row.seatId}`, row);
  return [...newest.values()];
}
