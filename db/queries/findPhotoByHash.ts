import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { photo } from '../schemaPhoto';
import type { PhotoRow } from './photoColumns';

/** The picture of an evaluation that was made from these very bytes, if it is still there. */
export function findPhotoByHash(db: Db, evaluationId: string, hash: string): PhotoRow | undefined {
  return db
    .select()
    .from(photo)
    .where(and(eq(photo.evaluationId, evaluationId), eq(photo.hash, hash), isNull(photo.removedAt)))
    .get();
}
