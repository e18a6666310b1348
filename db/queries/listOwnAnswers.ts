import { and, asc, eq } from 'drizzle-orm';
import type { Answer } from '#lib/contract/entry';
import type { Db } from '../open';
import { answer } from '../schema';
import { parseBody } from './parseBody';

/** BL1: one seat's answers in force in one round; no way to ask for two seats at once. */
export function listOwnAnswers(db: Db, seatId: string, roundId: string): Answer[] {
  return db
    .select({ subject: answer.subject, field: answer.field, counter: answer.counter, body: answer.body })
    .from(answer)
    .where(and(eq(answer.seatId, seatId), eq(answer.roundId, roundId)))
    .orderBy(asc(answer.subject), asc(answer.field))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}
