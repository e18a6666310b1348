import { and, asc, eq, isNull } from 'drizzle-orm';
import { shotListSchema } from '#lib/contract/photo';
import { type ShotKey, shotKeys } from '#lib/photo/shot';
import type { Db } from '../open';
import { photo } from '../schema/photos';
import { shotList } from '../schema/plans';

/** The pictures of an evaluation in the order they were taken, without those that were removed. */
export function listPhotos(db: Db, evaluationId: string): PhotoRow[] {
  return db
    .select()
    .from(photo)
    .where(and(eq(photo.evaluationId, evaluationId), isNull(photo.removedAt)))
    .orderBy(asc(photo.takenAt), asc(photo.id))
    .all();
}

/** Keeps a picture; the same id again changes nothing (SC2). */
export function insertPhoto(db: Db, row: typeof photo.$inferInsert): void {
  db.insert(photo).values(row).onConflictDoNothing().run();
}

/** A picture by its id, removed ones too. */
export function findPhoto(db: Db, id: string): PhotoRow | undefined {
  return db.select().from(photo).where(eq(photo.id, id)).get();
}

/** The picture of an evaluation that was made from these very bytes, if it is still there. */
export function findPhotoByHash(db: Db, evaluationId: string, hash: string): PhotoRow | undefined {
  return db
    .select()
    .from(photo)
    .where(and(eq(photo.evaluationId, evaluationId), eq(photo.hash, hash), isNull(photo.removedAt)))
    .get();
}

type PhotoChange = Partial<Pick<PhotoRow, 'puppyId' | 'view' | 'fair' | 'keeper' | 'removedAt'>>;

export function updatePhoto(db: Db, id: string, change: PhotoChange): void {
  db.update(photo).set(change).where(eq(photo.id, id)).run();
}

/** A row of the table of pictures. */
export type PhotoRow = typeof photo.$inferSelect;

/** The views wanted of each puppy of an evaluation: the owner's own list, or all. */
export function getShotList(db: Db, evaluationId: string): readonly ShotKey[] {
  const row = db.select().from(shotList).where(eq(shotList.evaluationId, evaluationId)).get();
  return row ? shotListSchema.parse(JSON.parse(row.body)) : shotKeys;
}

export function saveShotList(db: Db, evaluationId: string, shots: readonly ShotKey[]): void {
  const body = JSON.stringify(shots);
  db.insert(shotList)
    .values({ evaluationId, body })
    .onConflictDoUpdate({ target: shotList.evaluationId, set: { body } })
    .run();
}
