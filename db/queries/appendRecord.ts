import { desc } from 'drizzle-orm';
import type { RecordKind } from '#lib/proof/recordKinds';
import type { Db } from '../open';
import { record } from '../schemaAfterReveal';
import { recordHash } from './recordHash';

export type RecordDraft = {
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
