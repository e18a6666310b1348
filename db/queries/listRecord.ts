import { and, asc, eq, like, or } from 'drizzle-orm';
import type { RecordEntry } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { seat } from '../schema';
import { record } from '../schemaAfterReveal';

/**
 * What happened in one evaluation, oldest first. The record knows seats by id; their labels, which may be removed, are put in here. With `seatId` only
 * what that seat did or what was done to it.
 */
export function listRecord(db: Db, evaluationId: string, seatId: string | null = null): RecordEntry[] {
  const labels = new Map(db.select({ id: seat.id, label: seat.label }).from(seat).where(eq(seat.evaluationId, evaluationId)).all().map(({ id, label }) => [id, label]));
  const about = seatId === null ? undefined : or(eq(record.actor, `seat:${seatId}`), like(record.body, `%seat:${seatId}%`));
  const named = (words: string) => words.replace(/seat:([0-9a-f]{32})/g, (_, id: string) => labels.get(id) ?? 'a seat since taken off');
  return db
    .select({ seq: record.seq, at: record.at, actor: record.actor, kind: record.kind, detail: record.body, hash: record.hash })
    .from(record)
    .where(and(eq(record.evaluationId, evaluationId), about))
    .orderBy(asc(record.seq))
    .all()
    .map((entry) => ({ ...entry, actor: named(entry.actor), detail: named(entry.detail) }));
}
