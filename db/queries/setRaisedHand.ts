import { and, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { raisedHand } from '../schemaPlan';
import { isHeld } from './isReleased';

type Seat = { readonly evaluationId: string; readonly seatId: string };

/** A hand goes up once, keeping its place in the queue; asked again it is that of the device that asked last. */
export function raiseHand(db: Db, row: typeof raisedHand.$inferInsert): void {
  db.insert(raisedHand)
    .values(row)
    .onConflictDoUpdate({ target: [raisedHand.evaluationId, raisedHand.seatId], set: { deviceId: row.deviceId } })
    .run();
}

export function lowerHand(db: Db, { evaluationId, seatId }: Seat): void {
  db.delete(raisedHand).where(and(eq(raisedHand.evaluationId, evaluationId), eq(raisedHand.seatId, seatId))).run();
}

/** Whether a seat's hand is up and its own affair still; null while it is down. */
export function findHand(db: Db, { evaluationId, seatId }: Seat): { readonly held: boolean } | null {
  const row = db
    .select({ held: isHeld(db, evaluationId, raisedHand) })
    .from(raisedHand)
    .where(and(eq(raisedHand.evaluationId, evaluationId), eq(raisedHand.seatId, seatId)))
    .get();
  return row ? { held: row.held === 1 } : null;
}
