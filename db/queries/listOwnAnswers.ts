import { and, asc, eq } from 'drizzle-orm';
import type { Answer } from '#lib/contract/entry';
import type { Db } from '../open';
import { answer } from '../schema';
import { parseBody } from './parseBody';
import { sameIssue } from './sameIssue';

type OwnCard = {
  readonly seatId: string;
  readonly roundId: string;
  /** Only what this device and those of the same issue made (BL9: the new device of a reissued seat); null for all of the seat's. */
  readonly deviceId: string | null;
};

/** BL1: one seat's answers in force in one round; no way to ask for two seats at once. */
export function listOwnAnswers(db: Db, { seatId, roundId, deviceId }: OwnCard): Answer[] {
  return db
    .select({ subject: answer.subject, field: answer.field, counter: answer.counter, body: answer.body })
    .from(answer)
    .where(and(eq(answer.seatId, seatId), eq(answer.roundId, roundId), deviceId === null ? undefined : sameIssue(db, answer.deviceId, deviceId)))
    .orderBy(asc(answer.subject), asc(answer.field))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}
