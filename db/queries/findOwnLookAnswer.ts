import { and, desc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { lookAnswer } from '../schemaAfterReveal';
import { sameIssue } from './sameIssue';

type OwnLook = {
  readonly lookId: string;
  readonly seatId: string;
  /** Only what this device and those of the same issue answered (BL9: the new device of a reissued seat); null for any of the seat's. */
  readonly deviceId: string | null;
};

/** BL1: one seat's own newest answer to one look. */
export function findOwnLookAnswer(db: Db, { lookId, seatId, deviceId }: OwnLook) {
  return db
    .select({ choice: lookAnswer.choice, criterion: lookAnswer.criterion })
    .from(lookAnswer)
    .where(and(eq(lookAnswer.lookId, lookId), eq(lookAnswer.seatId, seatId), deviceId === null ? undefined : sameIssue(db, lookAnswer.deviceId, deviceId)))
    .orderBy(desc(lookAnswer.seq))
    .limit(1)
    .get();
}
