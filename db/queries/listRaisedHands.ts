import { and, asc, eq, or } from 'drizzle-orm';
import type { RaisedHands } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { raisedHand } from '../schemaPlan';
import { isHeld, isReleased, type MarkReader } from './isReleased';
import { sameIssue } from './sameIssue';

/** Seats that ask to speak, the longest waiting first: those that may be told, and the reader's own. */
export function listRaisedHands(db: Db, evaluationId: string, { seatId, onlyDevice }: MarkReader): RaisedHands {
  const own = seatId === null ? undefined : and(eq(raisedHand.seatId, seatId), onlyDevice === null ? undefined : sameIssue(db, raisedHand.deviceId, onlyDevice));
  const rows = db
    .select({ seatId: raisedHand.seatId, held: isHeld(db, evaluationId, raisedHand) })
    .from(raisedHand)
    .where(and(eq(raisedHand.evaluationId, evaluationId), or(isReleased(db, evaluationId, raisedHand), own)))
    .orderBy(asc(raisedHand.at), asc(raisedHand.seatId))
    .all();
  return { waiting: rows.map((row) => row.seatId), held: rows.some((row) => row.held === 1) };
}
