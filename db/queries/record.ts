import { hash } from 'node:crypto';
import { and, asc, desc, eq, isNotNull, isNull, like, notInArray, or } from 'drizzle-orm';
import type { RecordHead } from '#lib/contract/commitment';
import type { RecordEntry } from '#lib/contract/decisionView';
import type { RecordLine } from '#lib/proof/promises';
import { type RecordKind, recordKinds } from '#lib/proof/recordKinds';
import type { Db } from '../open';
import { evaluation } from '../schema/evaluations';
import { imported, importedLine } from '../schema/imports';
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
  const labels = new Map(
    db
      .select({ id: seat.id, label: seat.label })
      .from(seat)
      .where(eq(seat.evaluationId, evaluationId))
      .all()
      .map(({ id, label }) => [id, label]),
  );
  const about =
    seatId === null ? undefined : or(eq(record.actor, `seat:${seatId}`), like(record.body, `%seat:${seatId}%`));
  const named = (words: string) =>
    words.replace(/seat:([0-9a-f]{32})/g, (_, id: string) => labels.get(id) ?? 'a seat since taken off');
  const came =
    seatId === null
      ? listImportedLines(db, evaluationId).map(({ seq, at, actor, kind, detail, hash }) => ({
          seq,
          at,
          actor,
          kind,
          detail,
          hash,
        }))
      : [];
  const here = db
    .select({
      seq: record.seq,
      at: record.at,
      actor: record.actor,
      kind: record.kind,
      detail: record.body,
      hash: record.hash,
    })
    .from(record)
    .where(and(eq(record.evaluationId, evaluationId), about))
    .orderBy(asc(record.seq))
    .all();
  return [...came, ...here].map((entry) => ({ ...entry, actor: named(entry.actor), detail: named(entry.detail) }));
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
  FROM record`;
const inOrder = `${lines} ORDER BY seq`;
const linesOf = `${lines} WHERE evaluation_id = ? ORDER BY seq`;

/** The number of the first line of the record that does not follow from the one before; null when all do. */
export function findRecordFault(db: Db): number | null {
  let previous = { seq: 0, hash: '' };
  for (const line of db.$client.prepare<[], HashedLine & { readonly hash: string }>(inOrder).iterate()) {
    const follows =
      line.seq === previous.seq + 1 && line.previousHash === previous.hash && recordHash(line) === line.hash;
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

/** The record of all evaluations, oldest first, with seats by id, and whatever line is of no known kind. What an import brought stands before its own line. */
export function listRecordLines(db: Db): RecordLine[] {
  const marked = new Set(
    db
      .select({ id: imported.evaluationId })
      .from(imported)
      .all()
      .map(({ id }) => id),
  );
  const here: RecordLine[] = db
    .select({
      seq: record.seq,
      evaluationId: record.evaluationId,
      at: record.at,
      actor: record.actor,
      kind: record.kind,
      detail: record.body,
    })
    .from(record)
    .where(or(isNotNull(record.evaluationId), notInArray(record.kind, [...recordKinds])))
    .orderBy(asc(record.seq))
    .all();
  // The first line that stands here of an imported evaluation comes after all that it came with.
  const told = here.flatMap((line) =>
    line.evaluationId !== null && marked.delete(line.evaluationId)
      ? [...listImportedLines(db, line.evaluationId), line]
      : [line],
  );
  return [...told, ...[...marked].flatMap((id) => listImportedLines(db, id))];
}

type CameLine = HashedLine & { readonly hash: string; readonly evaluationId: string };

/** The lines an imported evaluation came with, as another server's record has them; none of one that was made here. */
function listImportedLines(db: Db, evaluationId: string): CameLine[] {
  return db
    .select({
      seq: importedLine.seq,
      evaluationId: importedLine.evaluationId,
      at: importedLine.at,
      actor: importedLine.actor,
      kind: importedLine.kind,
      detail: importedLine.body,
      previousHash: importedLine.previousHash,
      hash: importedLine.hash,
    })
    .from(importedLine)
    .where(eq(importedLine.evaluationId, evaluationId))
    .orderBy(asc(importedLine.seq))
    .all();
}

/** What a record says of one evaluation and no other, with each line's hash and that of the line before it; of an imported one what it came with. */
export function listOwnLines(db: Db, evaluationId: string): CameLine[] {
  const came = listImportedLines(db, evaluationId);
  if (came.length > 0) return came;
  return db.$client.prepare<[string], CameLine>(linesOf).all(evaluationId);
}

/**
 * Where lines that came with an import do not make a chain: each has to make its own hash, and to follow from the one before where that
 * is here. Lines about other matters of that server are not, so over such a gap a line is held by its own hash alone.
 */
export function findImportedFaults(db: Db): { readonly evaluationId: string; readonly seq: number }[] {
  return db
    .select()
    .from(imported)
    .all()
    .flatMap(({ evaluationId, headSeq, headHash }) => {
      const lines = listImportedLines(db, evaluationId);
      const wrong = lines.find((line, at) => {
        const before = lines[at - 1];
        const follows =
          line.seq === 1 ? line.previousHash === '' : before?.seq !== line.seq - 1 || before.hash === line.previousHash;
        const within = line.seq < headSeq || (line.seq === headSeq && line.hash === headHash);
        return !follows || !within || recordHash(line) !== line.hash;
      });
      return wrong ? [{ evaluationId, seq: wrong.seq }] : [];
    });
}

/** Evaluations whose record has not begun to bind by hash: those of an earlier version. An imported one was bound where it was made. */
export function listUnbound(db: Db): string[] {
  return db
    .select({ id: evaluation.id })
    .from(evaluation)
    .leftJoin(record, and(eq(record.evaluationId, evaluation.id), eq(record.kind, 'binding-begun')))
    .leftJoin(imported, eq(imported.evaluationId, evaluation.id))
    .where(and(isNull(record.seq), isNull(imported.at)))
    .orderBy(asc(evaluation.id))
    .all()
    .map((row) => row.id);
}
