import { asc, eq } from 'drizzle-orm';
import { z } from 'zod';
import { practiceAnswerSchema, type PracticeAnswer } from '#lib/contract/practice';
import type { Db } from '../../open';
import { practiceCard } from '../../schemaPlan';

const bodySchema = z.array(practiceAnswerSchema);

/** Every seat's practice card of an evaluation. Only server/reveal may call this, and shows them by lib/blind/practiceView. */
export function listPracticeCards(db: Db, evaluationId: string): { seatId: string; answers: PracticeAnswer[] }[] {
  return db
    .select({ seatId: practiceCard.seatId, answers: practiceCard.answers })
    .from(practiceCard)
    .where(eq(practiceCard.evaluationId, evaluationId))
    .orderBy(asc(practiceCard.seatId))
    .all()
    .map(({ seatId, answers }) => ({ seatId, answers: bodySchema.parse(JSON.parse(answers)) }));
}
