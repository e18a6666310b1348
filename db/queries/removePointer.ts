import type { Db } from '../open';
import { pointerRemoval } from '../schemaPhoto';

/** A mark taken back by its own seat: kept, and shown no more. */
export function removePointer(db: Db, pointerId: string, at: number): void {
  db.insert(pointerRemoval).values({ pointerId, at }).onConflictDoNothing().run();
}
