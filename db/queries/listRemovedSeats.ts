import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { seat } from '../schema';
import { removal } from '../schemaAccess';

/** The seats of an evaluation whose person's words were removed. */
export function listRemovedSeats(db: Db, evaluationId: string): ReadonlySet<string> {
  const rows = db.select({ id: removal.seatId }).from(removal).innerJoin(seat, eq(seat.id, removal.seatId)).where(eq(seat.evaluationId, evaluationId)).all();
  return new Set(rows.map(({ id }) => id));
}
