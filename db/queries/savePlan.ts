import type { Plan } from '#lib/contract/plan';
import type { Db } from '../open';
import { plan } from '../schemaPlan';

export function savePlan(db: Db, evaluationId: string, { silentRepeat, ...rest }: Plan): void {
  const row = { ...rest, silentRepeat: silentRepeat ? 1 : 0 };
  db.insert(plan).values({ ...row, evaluationId }).onConflictDoUpdate({ target: plan.evaluationId, set: row }).run();
}
