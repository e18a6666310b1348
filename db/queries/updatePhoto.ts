import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { photo } from '../schemaPhoto';
import type { PhotoRow } from './photoColumns';

type PhotoChange = Partial<Pick<PhotoRow, 'puppyId' | 'view' | 'fair' | 'keeper' | 'removedAt'>>;

export function updatePhoto(db: Db, id: string, change: PhotoChange): void {
  db.update(photo).set(change).where(eq(photo.id, id)).run();
}
