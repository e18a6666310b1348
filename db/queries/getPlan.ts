import { eq } from 'drizzle-orm';
import { usualPlan, type Plan } from '#lib/contract/plan';
import type { Db } from '../open';
import { plan } from '../schemaPlan';

/** The plan of an evaluation; the usual one where nothing else was said. */
export function getPlan(db: Db, evaluationId: string): Plan {
  const row = db.select().from(plan).where(eq(plan.evaluationId, evaluationId)).get();
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
