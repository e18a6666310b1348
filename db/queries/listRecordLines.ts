import { asc, isNotNull, notInArray, or } from 'drizzle-orm';
import type { RecordLine } from '#lib/proof/promises';
import { recordKinds } from '#lib/proof/recordKinds';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';

/** The record of all evaluations, oldest first, with seats by id, and whatever line is of no known kind. */
export function listRecordLines(db: Db): RecordLine[] {
  return db
    .select({ seq: record.seq, evaluationId: record.evaluationId, at: record.at, actor: record.actor, kind: record.kind, detail: record.body })
    .from(record)
    .where(or(isNotNull(record.evaluationId), notInArray(record.kind, [...recordKinds])))
    .orderBy(asc(record.seq))
    .all();
}
