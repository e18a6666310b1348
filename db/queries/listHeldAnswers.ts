import { and, asc, eq, inArray } from 'drizzle-orm';
import type { HeldAnswer } from '#lib/evaluation/swapCards';
import type { Db } from '../open';
import { answer } from '../schema';
import { parseBody } from './parseBody';

type Cards = { readonly seatId: string; readonly roundId: string; readonly subjects: readonly string[] };

/** One seat's answers in force about some showings, with the device that made each. Never leaves the server. */
export function listHeldAnswers(db: Db, { seatId, roundId, subjects }: Cards): HeldAnswer[] {
  return db
    .select({ subject: answer.subject, field: answer.field, counter: answer.counter, body: answer.body, deviceId: answer.deviceId })
    .from(answer)
    .where(and(eq(answer.seatId, seatId), eq(answer.roundId, roundId), inArray(answer.subject, [...subjects])))
    .orderBy(asc(answer.subject), asc(answer.field))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}
