import { and, desc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { lookAnswer } from '../schemaAfterReveal';

/** BL1: one seat's own newest answer to one look. */
export function findOwnLookAnswer(db: Db, lookId: string, seatId: string) {
  return db
    .select({ choice: lookAnswer.choice, criterion: lookAnswer.criterion })
    .from(lookAnswer)
    .where(and(eq(lookAnswer.lookId, lookId), eq(lookAnswer.seatId, seatId)))
    .orderBy(desc(lookAnswer.seq))
    .limit(1)
    .get();
}
