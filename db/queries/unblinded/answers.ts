import { and, asc, eq, ne, not, sql, type SQL } from 'drizzle-orm';
import { z } from 'zod';
import type { PracticeCard } from '#lib/blind/lessonView';
import type { Answer } from '#lib/contract/entry';
import type { PhotoMarks } from '#lib/contract/photo';
import { practiceAnswerSchema } from '#lib/contract/practice';
import type { Db } from '../../open';
import { answer } from '../../schema/entries';
import { look, lookAnswer, lookBatch } from '../../schema/looks';
import { photoMeasurement, photoPointer, pointerRemoval } from '../../schema/photos';
import { practiceCard } from '../../schema/entries';
import { sameIssue } from '../devices';
import { parseBody } from '../entries';
import { isReleased, type MarkReader } from '../isReleased';
import { photoMarkRows } from '../photoMarks';

export type RoundAnswer = Answer & { readonly seatId: string };

/** Every seat's answers of a round. Only server/reveal may call this, and only for a round that is being revealed. */
export function listRoundAnswers(db: Db, roundId: string): RoundAnswer[] {
  return db
    .select({
      seatId: answer.seatId,
      subject: answer.subject,
      field: answer.field,
      counter: answer.counter,
      body: answer.body,
    })
    .from(answer)
    .where(eq(answer.roundId, roundId))
    .orderBy(asc(answer.seatId), asc(answer.subject), asc(answer.field))
    .all()
    .map(({ body, ...row }) => ({ ...row, body: parseBody(body) }));
}

export type LookAnswerRow = {
  readonly lookId: string;
  readonly batchId: string;
  readonly seatId: string;
  readonly choice: 'first' | 'second' | 'tie';
  readonly criterion: string | null;
};

/** Every seat's newest answer to each look of an evaluation, for batches already revealed. Only server/reveal may call this. */
export function listLookAnswers(db: Db, evaluationId: string): LookAnswerRow[] {
  const rows = db
    .select({
      state: lookBatch.state,
      batchId: look.batchId,
      lookId: lookAnswer.lookId,
      seatId: lookAnswer.seatId,
      choice: lookAnswer.choice,
      criterion: lookAnswer.criterion,
    })
    .from(lookAnswer)
    .innerJoin(look, eq(look.id, lookAnswer.lookId))
    .innerJoin(lookBatch, eq(lookBatch.id, look.batchId))
    .where(eq(lookBatch.evaluationId, evaluationId))
    .orderBy(asc(lookAnswer.seq))
    .all();
  const newest = new Map<string, LookAnswerRow>();
  for (const { state, ...row } of rows) if (state === 'revealed') newest.set(`${row.lookId} ${row.seatId}`, row);
  return [...newest.values()];
}

const bodySchema = z.array(practiceAnswerSchema);

/** Every seat's practice card of an evaluation, and which is the reader's own, made by a device of its issue where the seat was issued again. Only server/reveal may call this, and shows them by lib/blind/lessonView. */
export function listPracticeCards(db: Db, evaluationId: string, { seatId, onlyDevice }: MarkReader): PracticeCard[] {
  const own = and(
    eq(practiceCard.seatId, seatId ?? ''),
    onlyDevice === null ? undefined : sameIssue(db, practiceCard.deviceId, onlyDevice),
  );
  return db
    .select({ seatId: practiceCard.seatId, answers: practiceCard.answers, own: sql<number>`coalesce(${own}, 0)` })
    .from(practiceCard)
    .where(eq(practiceCard.evaluationId, evaluationId))
    .orderBy(asc(practiceCard.seatId))
    .all()
    .map((row) => ({ seatId: row.seatId, own: row.own === 1, answers: bodySchema.parse(JSON.parse(row.answers)) }));
}

/** All other seats' marks and measurements that may be told. One taken back while something is open is there until that is revealed, as before. */
export function listReleasedMarks(db: Db, evaluationId: string, ownSeatId: string | null): PhotoMarks {
  const of = (table: typeof photoPointer | typeof photoMeasurement): SQL | undefined =>
    and(isReleased(db, evaluationId, table), ownSeatId === null ? undefined : ne(table.seatId, ownSeatId));
  return photoMarkRows(db, {
    evaluationId,
    pointers: of(photoPointer),
    measurements: of(photoMeasurement),
    takenBack: not(isReleased(db, evaluationId, pointerRemoval)),
  });
}
