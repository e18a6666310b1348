import { and, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { withdrawal } from '../schema';

type Withdrawn = { readonly evaluationId: string; readonly puppyId: string };

/** A puppy out of this evaluation; its scores stay in the history. Again changes nothing. */
export function insertWithdrawal(db: Db, row: Withdrawn & { readonly reason: string; readonly at: number }): void {
  db.insert(withdrawal).values(row).onConflictDoNothing().run();
}

/** A puppy in this evaluation again. The row holds no score; that it was there stands in the record. */
export function deleteWithdrawal(db: Db, { evaluationId, puppyId }: Withdrawn): void {
  db.delete(withdrawal).where(and(eq(withdrawal.evaluationId, evaluationId), eq(withdrawal.puppyId, puppyId))).run();
}
