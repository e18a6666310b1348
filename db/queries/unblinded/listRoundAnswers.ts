import { asc, eq } from 'drizzle-orm';
import type { Answer } from '#lib/contract/entry';
import type { Db } from '../../open';
import { answer } from '../../schema';
import { parseBody } from '../parseBody';

export type RoundAnswer = Answer & { readonly seatId: string };

/** Every seat's answers of a round. Only server/reveal may call this, and only for a round that is being revealed. */
export function listRoundAnswers(db: Db, roundId: string): RoundAnswer[] {
  return db
    .select({ seatId: answer.seatId, subject: answer.subject, field: answer.field, counter: answer.counter, body: answer.body })
    .from(answer)
    .where(eq(answer.roundId, roundId))
    .orderBy(asc(answer.seatId), asc(answer.subject), asc(answer.field))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}
