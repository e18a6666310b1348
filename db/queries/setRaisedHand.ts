import { and, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { raisedHand } from '../schemaPlan';

/** A hand goes up once, keeping its place in the queue, or comes down. */
export function setRaisedHand(db: Db, { up, ...row }: { readonly evaluationId: string; readonly seatId: string; readonly at: number; readonly up: boolean }): void {
  if (up) db.insert(raisedHand).values(row).onConflictDoNothing().run();
  else db.delete(raisedHand).where(and(eq(raisedHand.evaluationId, row.evaluationId), eq(raisedHand.seatId, row.seatId))).run();
}
