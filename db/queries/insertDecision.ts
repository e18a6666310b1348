import { max } from 'drizzle-orm';
import type { Decision } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { decision } from '../schemaAfterReveal';

/** Appends a decision, or (null puppy) its taking back. */
export function insertDecision(db: Db, row: Decision & { readonly id: string; readonly evaluationId: string }): void {
  const last = db.select({ seq: max(decision.seq) }).from(decision).get();
  const followedPanel = row.followedPanel === null ? null : row.followedPanel ? 1 : 0;
  db.insert(decision).values({ ...row, seq: (last?.seq ?? 0) + 1, preference: row.preference ? 1 : 0, followedPanel }).run();
}
