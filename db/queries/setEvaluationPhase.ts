import { eq } from 'drizzle-orm';
import type { EvaluationPhase } from '#lib/evaluation/phase';
import type { Db } from '../open';
import { evaluation } from '../schema';

/** Moves an evaluation on; `sealedAt` is set with the last phase. */
export function setEvaluationPhase(db: Db, id: string, change: { readonly phase: EvaluationPhase; readonly at: number }): void {
  const sealedAt = change.phase === 'sealed' ? { sealedAt: change.at } : {};
  db.update(evaluation).set({ phase: change.phase, ...sealedAt }).where(eq(evaluation.id, id)).run();
}
