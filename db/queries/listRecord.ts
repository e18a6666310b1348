import { asc, eq } from 'drizzle-orm';
import type { RecordEntry } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';

/** What happened in one evaluation, oldest first. */
export function listRecord(db: Db, evaluationId: string): RecordEntry[] {
  return db
    .select({ seq: record.seq, at: record.at, actor: record.actor, kind: record.kind, detail: record.body, hash: record.hash })
    .from(record)
    .where(eq(record.evaluationId, evaluationId))
    .orderBy(asc(record.seq))
    .all();
}
