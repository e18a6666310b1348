import { eq } from 'drizzle-orm';
import { snapshotSchema, type Snapshot } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { snapshot } from '../schemaAfterReveal';

/** What stood when this round was revealed. There is none before: throws wrong-phase. */
export function getSnapshot(db: Db, roundId: string): { readonly id: string; readonly body: Snapshot } {
  const row = db.select({ id: snapshot.id, body: snapshot.body }).from(snapshot).where(eq(snapshot.roundId, roundId)).get();
  if (!row) throw new DomainError('wrong-phase');
  return { id: row.id, body: snapshotSchema.parse(JSON.parse(row.body)) };
}
