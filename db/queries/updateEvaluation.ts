import { eq } from 'drizzle-orm';
import type { EvaluationInput } from '#lib/contract/setup';
import type { Db } from '../open';
import { evaluation } from '../schema';

/** Changes what was typed about an evaluation, and the sheet it uses. */
export function updateEvaluation(db: Db, id: string, input: EvaluationInput & { readonly sheetId: string }): void {
  db.update(evaluation).set(input).where(eq(evaluation.id, id)).run();
}
