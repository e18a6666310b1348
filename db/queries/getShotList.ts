import { eq } from 'drizzle-orm';
import { shotListSchema } from '#lib/contract/photo';
import { shotKeys, type ShotKey } from '#lib/photo/shot';
import type { Db } from '../open';
import { shotList } from '../schemaPhoto';

/** The views wanted of each puppy of an evaluation: the owner's own list, or all. */
export function getShotList(db: Db, evaluationId: string): readonly ShotKey[] {
  const row = db.select().from(shotList).where(eq(shotList.evaluationId, evaluationId)).get();
  return row ? shotListSchema.parse(JSON.parse(row.body)) : shotKeys;
}
