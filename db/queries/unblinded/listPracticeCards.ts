import { and, asc, eq, sql } from 'drizzle-orm';
import { z } from 'zod';
import type { PracticeCard } from '#lib/blind/practiceView';
import { practiceAnswerSchema } from '#lib/contract/practice';
import type { Db } from '../../open';
import { practiceCard } from '../../schemaPlan';
import type { MarkReader } from '../isReleased';
import { sameIssue } from '../sameIssue';

const bodySchema = z.array(practiceAnswerSchema);

/** Every seat's practice card of an evaluation, and which is the reader's own, made by a device of its issue where the seat was issued again. Only server/reveal may call this, and shows them by lib/blind/practiceView. */
export function listPracticeCards(db: Db, evaluationId: string, { seatId, onlyDevice }: MarkReader): PracticeCard[] {
  const own = and(eq(practiceCard.seatId, seatId ?? ''), onlyDevice === null ? undefined : sameIssue(db, practiceCard.deviceId, onlyDevice));
  return db
    .select({ seatId: practiceCard.seatId, answers: practiceCard.answers, own: sql<number>`coalesce(${own}, 0)` })
    .from(practiceCard)
    .where(eq(practiceCard.evaluationId, evaluationId))
    .orderBy(asc(practiceCard.seatId))
    .all()
    .map((row) => ({ seatId: row.seatId, own: row.own === 1, answers: bodySchema.parse(JSON.parse(row.answers)) }));
}
