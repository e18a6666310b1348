import type { Db } from '../open';
import { confirmation } from '../schemaPlan';

/** The newest confirmation of a seat takes the place of an earlier one: the record keeps that each was given. */
export function saveConfirmation(db: Db, row: typeof confirmation.$inferInsert): void {
  db.insert(confirmation)
    .values(row)
    .onConflictDoUpdate({ target: [confirmation.evaluationId, confirmation.seatId], set: { wording: row.wording, at: row.at } })
    .run();
}
