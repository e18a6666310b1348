import type { ShotKey } from '#lib/photo/shot';
import type { Db } from '../open';
import { shotList } from '../schemaPhoto';

export function saveShotList(db: Db, evaluationId: string, shots: readonly ShotKey[]): void {
  const body = JSON.stringify(shots);
  db.insert(shotList).values({ evaluationId, body }).onConflictDoUpdate({ target: shotList.evaluationId, set: { body } }).run();
}
