import { eq, sql } from 'drizzle-orm';
import { usualPlan, type Plan } from '#lib/contract/plan';
import type { Db } from '../open';
import { prepareOnce } from '../prepareOnce';
import { plan } from '../schemaPlan';

const planRow = prepareOnce((db) => db.select().from(plan).where(eq(plan.evaluationId, sql.placeholder('evaluationId'))).prepare());

/** The plan of an evaluation; the usual one where nothing else was said. */
export function getPlan(db: Db, evaluationId: string): Plan {
  const row = planRow(db).get({ evaluationId });
  if (!row) return usualPlan;
  return {
    kind: row.kind,
    learnerSeatId: row.learnerSeatId,
    discussion: row.discussion,
    identity: row.identity,
    silentRepeat: row.silentRepeat === 1,
    hoursSinceMeal: row.hoursSinceMeal,
    lookBatches: row.lookBatches,
  };
}
