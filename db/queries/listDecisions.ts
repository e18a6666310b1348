import { asc, eq } from 'drizzle-orm';
import type { Decision } from '#lib/contract/decisionView';
import type { Db } from '../open';
import { decision } from '../schemaAfterReveal';

/** The decision that stands for each slot; a slot whose decision was taken back is absent. With `first`, after so many rows. */
export function listDecisions(db: Db, evaluationId: string, first = Infinity): Decision[] {
  const rows = db.select().from(decision).where(eq(decision.evaluationId, evaluationId)).orderBy(asc(decision.seq)).all();
  const standing = new Map(rows.slice(0, first).map((row) => [row.slotId, row]));
  return [...standing.values()]
    .filter((row) => row.outcome !== 'taken-back')
    .map((row) => ({
      slotId: row.slotId,
      puppyId: row.puppyId,
      by: row.by,
      reason: row.reason,
      preference: row.preference === 1,
      followedPanel: row.followedPanel === null ? null : row.followedPanel === 1,
      at: row.at,
    }));
}
