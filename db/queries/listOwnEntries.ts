import { and, asc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { entry } from '../schema';
import { parseBody } from './parseBody';
import { sameIssue } from './sameIssue';

type OwnPast = {
  readonly seatId: string;
  /** Only what this device and those of the same issue entered (BL9); null for all of the seat's. */
  readonly deviceId: string | null;
};

/** BL1: everything one seat ever entered, in the order it came in; no way to ask for two seats at once. */
export function listOwnEntries(db: Db, { seatId, deviceId }: OwnPast) {
  return db
    .select({ roundId: entry.roundId, subject: entry.subject, body: entry.body, status: entry.status, madeAt: entry.madeAt, receivedAt: entry.receivedAt })
    .from(entry)
    .where(and(eq(entry.seatId, seatId), deviceId === null ? undefined : sameIssue(db, entry.deviceId, deviceId)))
    .orderBy(asc(entry.receivedAt), asc(entry.id))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}
