import { max } from 'drizzle-orm';
import type { Db } from '../open';
import { lookAnswer } from '../schemaAfterReveal';

type NewAnswer = {
  readonly id: string;
  readonly lookId: string;
  readonly seatId: string;
  readonly deviceId: string;
  readonly choice: 'first' | 'second' | 'tie';
  readonly criterion: string | null;
  readonly madeAt: number;
  readonly receivedAt: number;
};

/** Keeps one answer; the same id again changes nothing (SC2). Returns whether it was new. */
export function insertLookAnswer(db: Db, row: NewAnswer): boolean {
  const last = db.select({ seq: max(lookAnswer.seq) }).from(lookAnswer).get();
  return db.insert(lookAnswer).values({ ...row, seq: (last?.seq ?? 0) + 1 }).onConflictDoNothing().run().changes === 1;
}
