import { eq } from 'drizzle-orm';
import type { Purpose } from '#lib/contract/setup';
import type { Db } from '../open';
import { purpose } from '../schema';

export function replacePurposes(db: Db, evaluationId: string, purposes: readonly Purpose[]): void {
  db.delete(purpose).where(eq(purpose.evaluationId, evaluationId)).run();
  for (const { key, weights } of purposes) db.insert(purpose).values({ evaluationId, key, weights: JSON.stringify(weights) }).run();
}
