import { and, asc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { confirmation } from '../schemaPlan';

/** Seats whose last confirmation was of exactly this wording of the pick order. */
export function listConfirmedSeats(db: Db, evaluationId: string, wording: string): string[] {
  return db
    .select({ seatId: confirmation.seatId })
    .from(confirmation)
    .where(and(eq(confirmation.evaluationId, evaluationId), eq(confirmation.wording, wording)))
    .orderBy(asc(confirmation.seatId))
    .all()
    .map((row) => row.seatId);
}
