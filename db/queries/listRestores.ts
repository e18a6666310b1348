import { and, asc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';

/** When an evaluation came back from a backup, oldest first. */
export function listRestores(db: Db, evaluationId: string): number[] {
  return db
    .select({ at: record.at })
    .from(record)
    .where(and(eq(record.evaluationId, evaluationId), eq(record.kind, 'restored')))
    .orderBy(asc(record.seq))
    .all()
    .map(({ at }) => at);
}
