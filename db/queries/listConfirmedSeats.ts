import { and, asc, eq, sql } from 'drizzle-orm';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { confirmation } from '../schemaPlan';

const seatRows = prepareOnce((db) =>
  db
    .select({ seatId: confirmation.seatId })
    .from(confirmation)
    .where(and(eq(confirmation.evaluationId, sql.placeholder('evaluationId')), eq(confirmation.wording, sql.placeholder('wording'))))
    .orderBy(asc(confirmation.seatId))
    .prepare(),
);

/** Seats whose last confirmation was of exactly this wording of the pick order. */
export function listConfirmedSeats(db: Db, evaluationId: string, wording: string): string[] {
  return seatRows(db)
    .all({ evaluationId, wording })
    .map((row) => row.seatId);
}
