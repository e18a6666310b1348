import { max } from 'drizzle-orm';
import type { Decision } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { decision } from '../schemaAfterReveal';

type NewDecision = Decision & { readonly id: string; readonly evaluationId: string; readonly takenBack?: true };

/** Appends a decision (a null puppy leaves the place empty), or its taking back. */
export function insertDecision(db: Db, { takenBack, ...row }: NewDecision): void {
  const last = db.select({ seq: max(decision.seq) }).from(decision).get();
  const followedPanel = row.followedPanel === null ? null : row.followedPanel ? 1 : 0;
  const outcome = takenBack ? 'taken-back' : row.puppyId === null ? 'nobody' : 'picked';
  db.insert(decision).values({ ...row, outcome, seq: (last?.seq ?? 0) + 1, preference: row.preference ? 1 : 0, followedPanel }).run();
}
