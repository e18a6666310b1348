import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { lookAnswer } from '../schemaAfterReveal';

/** Which seats have answered a look, never what: closes the look with the last awaited answer. Leaves no view. */
export function listLookSeats(db: Db, lookId: string): ReadonlySet<string> {
  const rows = db.selectDistinct({ seatId: lookAnswer.seatId }).from(lookAnswer).where(eq(lookAnswer.lookId, lookId)).all();
  return new Set(rows.map((row) => row.seatId));
}
