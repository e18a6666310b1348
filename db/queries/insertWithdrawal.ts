import type { Db } from '../open';
import { withdrawal } from '../schema';

/** A puppy out of this evaluation; its scores stay in the history. Again changes nothing. */
export function insertWithdrawal(db: Db, row: { readonly evaluationId: string; readonly puppyId: string; readonly reason: string; readonly at: number }): void {
  db.insert(withdrawal).values(row).onConflictDoNothing().run();
}
