import { hash } from 'node:crypto';
import { and, asc, desc, eq, isNotNull, isNull, like, notInArray, or } from 'drizzle-orm';
import type { RecordHead } from '#lib/contract/commitment';
import type { RecordEntry } from '#lib/contract/decisionView';
import type { RecordLine } from '#lib/proof/promises';
import { type RecordKind, recordKinds } from '#lib/proof/recordKinds';
import type { Db } from '../open';
import { evaluation } from '../schema/evaluations';
import { seat } from '../schema/seats';
import { record } from '../schema/record';

type RecordDraft = {
  readonly evaluationId: string | null;
  readonly at: number;
  readonly actor: string;
  readonly kind: RecordKind;
  /** Words of what happened; never a score, never a secret. */
  readonly detail: string;
};

/** Appends to the record of what happened; the new hash covers the one before, so no earlier row can change unseen. */
export function appendRecord(db: Db, draft: RecordDraft): void {
  const last = db.select({ seq: record.seq, hash: record.hash }).from(record).orderBy(desc(record.seq)).limit(1).get();
  const seq = (last?.seq ?? 0) + 1;
  const previousHash = last?.hash ?? '';
  const { evaluationId, at, actor, kind, detail } = draft;
  const hash = recordHash({ previousHash, seq, evaluationId, at, actor, kind, detail });
  db.insert(record).values({ seq, evaluationId, at, actor, kind, body: detail, previousHash, hash }).run();
}

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

/** The newest line's number and hash; zeros for an empty record. */
export function findRecordHead(db: Db): RecordHead {
  const last = db.select({ seq: record.seq, hash: record.hash }).from(record).orderBy(desc(record.seq)).limit(1).get();
  return last ?? { seq: 0, hash: '0'.repeat(64) };
}

/** The hash of one line of the record, whosever it is; undefined when there is none. */
export function findRecordHash(db: Db, seq: number): string | undefined {
  return db.select({ hash: record.hash }).from(record).where(eq(record.seq, seq)).get()?.hash;
}

const lines = `
  SELECT seq, evaluation_id AS evaluationId, at, actor, kind, body AS detail, previous_hash AS previousHash, hash
  FROM record ORDER BY seq`;

/** The number of the first line of the record that does not follow from the one before; null when all do. */
export function findRecordFault(db: Db): number | null {
  let previous = { seq: 0, hash: '' };
  for (const line of db.$client.prepare<[], HashedLine & { readonly hash: string }>(lines).iterate()) {
    const follows = line.seq === previous.seq + 1 && line.previousHash === previous.hash && recordHash(line) === line.hash;
    if (!follows) return line.seq;
    previous = line;
  }
  return null;
}

type HashedLine = {
  readonly previousHash: string;
  readonly seq: number;
  readonly evaluationId: string | null;
  readonly at: number;
  readonly actor: string;
  readonly kind: string;
  readonly detail: string;
};

/** The hash of one line of the record: SHA-256 over a JSON array of its parts, the hash of the line before first. */
export function recordHash({ previousHash, seq, evaluationId, at, actor, kind, detail }: HashedLine): string {
  return hash('sha256', JSON.stringify([previousHash, seq, evaluationId, at, actor, kind, detail]), 'hex');
}

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

/** The record of all evaluations, oldest first, with seats by id, and whatever line is of no known kind. */
export function listRecordLines(db: Db): RecordLine[] {
  return db
    .select({ seq: record.seq, evaluationId: record.evaluationId, at: record.at, actor: record.actor, kind: record.kind, detail: record.body })
    .from(record)
    .where(or(isNotNull(record.evaluationId), notInArray(record.kind, [...recordKinds])))
    .orderBy(asc(record.seq))
    .all();
}

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
