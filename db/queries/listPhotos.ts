import { and, asc, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { photo } from '../schemaPhoto';
import type { PhotoRow } from './photoColumns';

/** The pictures of an evaluation in the order they were taken, without those that were removed. */
export function listPhotos(db: Db, evaluationId: string): PhotoRow[] {
  return db
    .select()
    .from(photo)
    .where(and(eq(photo.evaluationId, evaluationId), isNull(photo.removedAt)))
    .orderBy(asc(photo.takenAt), asc(photo.id))
    .all();
}
