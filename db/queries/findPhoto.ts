import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { photo } from '../schemaPhoto';
import type { PhotoRow } from './photoColumns';

/** A picture by its id, removed ones too. */
export function findPhoto(db: Db, id: string): PhotoRow | undefined {
  return db.select().from(photo).where(eq(photo.id, id)).get();
}
