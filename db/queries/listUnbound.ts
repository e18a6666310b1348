import { and, asc, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { evaluation } from '../schema';
import { record } from '../schemaAfterReveal';

/** Evaluations whose record has not begun to bind by hash: those of an earlier version. */
export function listUnbound(db: Db): string[] {
  return db
    .select({ id: evaluation.id })
    .from(evaluation)
    .leftJoin(record, and(eq(record.evaluationId, evaluation.id), eq(record.kind, 'binding-begun')))
    .where(isNull(record.seq))
    .orderBy(asc(evaluation.id))
    .all()
    .map((row) => row.id);
}
