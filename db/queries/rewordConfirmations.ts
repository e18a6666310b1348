import { and, eq, ne } from 'drizzle-orm';
import type { Db } from '../open';
import { confirmation } from '../schemaPlan';

/** The same pick order in other words, as when a name was removed from it: what was confirmed stays so, and older wordings go. */
export function rewordConfirmations(db: Db, evaluationId: string, { from, to }: { readonly from: string; readonly to: string }): void {
  const of = eq(confirmation.evaluationId, evaluationId);
  db.update(confirmation).set({ wording: '' }).where(and(of, ne(confirmation.wording, from))).run();
  db.update(confirmation).set({ wording: to }).where(and(of, eq(confirmation.wording, from))).run();
}
