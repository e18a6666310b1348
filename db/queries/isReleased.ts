import { and, eq, exists, inArray, isNull, ne, or, sql, type Column, type SQL } from 'drizzle-orm';
import type { Db } from '../open';
import { round } from '../schema/rounds';
import { lookBatch } from '../schema/looks';

/** The columns of a row that say what it was made under. */
export type Made = { readonly roundId: Column; readonly lookBatchId: Column };

/**
 * Holds where others may be told of a row (BL1, BL8): the round it was made under is revealed, or the evaluation's first where
 * it was made before any; and so is the batch of second looks that was open.
 */
export function isReleased(db: Db, evaluationId: string, { roundId, lookBatchId }: Made): SQL {
  const rounds = db
    .select({ id: round.id })
    .from(round)
    .where(and(eq(round.evaluationId, evaluationId), eq(round.state, 'revealed'), ne(round.occasion, 'practice')));
  const batches = db
    .select({ id: lookBatch.id })
    .from(lookBatch)
    .where(and(eq(lookBatch.evaluationId, evaluationId), eq(lookBatch.state, 'revealed')));
  const ofRound = or(inArray(roundId, rounds), and(isNull(roundId), exists(rounds)));
  return sql`(${and(ofRound, or(isNull(lookBatchId), inArray(lookBatchId, batches)))})`;
}

/** The same as a column: 1 while a row is still its author's alone. */
export function isHeld(db: Db, evaluationId: string, made: Made): SQL<number> {
  return sql<number>`not ${isReleased(db, evaluationId, made)}`;
}

/** Whose seat reads, and by which device where it may not read what earlier ones of its seat made before it is told (BL9). */
export type MarkReader = { readonly seatId: string | null; readonly onlyDevice: string | null };
