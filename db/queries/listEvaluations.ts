import { desc, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { evaluation, litter } from '../schema';

/** All evaluations, newest first. */
export function listEvaluations(db: Db) {
  return db
    .select({ id: evaluation.id, name: evaluation.name, litterName: litter.name, heldOn: evaluation.heldOn, phase: evaluation.phase })
    .from(evaluation)
    .innerJoin(litter, eq(litter.id, evaluation.litterId))
    .orderBy(desc(evaluation.heldOn), desc(evaluation.createdAt))
    .all();
}
