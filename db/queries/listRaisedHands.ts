import { asc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { raisedHand } from '../schemaPlan';

/** Seats that ask to speak, the longest waiting first. */
export function listRaisedHands(db: Db, evaluationId: string): string[] {
  return db
    .select({ seatId: raisedHand.seatId })
    .from(raisedHand)
    .where(eq(raisedHand.evaluationId, evaluationId))
    .orderBy(asc(raisedHand.at), asc(raisedHand.seatId))
    .all()
    .map((row) => row.seatId);
}
