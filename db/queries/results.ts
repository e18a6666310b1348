import { asc, eq } from 'drizzle-orm';
import { type Snapshot, snapshotSchema } from '#lib/contract/snapshot';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { result, snapshot } from '../schema/results';

/** What stood when this round was revealed. There is none before: throws wrong-phase. */
export function getSnapshot(db: Db, roundId: string): { readonly id: string; readonly body: Snapshot } {
  const row = db
    .select({ id: snapshot.id, body: snapshot.body })
    .from(snapshot)
    .where(eq(snapshot.roundId, roundId))
    .get();
  if (!row) throw new DomainError('wrong-phase');
  return { id: row.id, body: snapshotSchema.parse(JSON.parse(row.body)) };
}

export function insertSnapshot(db: Db, row: { readonly id: string; readonly body: Snapshot }): void {
  const { body } = row;
  db.insert(snapshot)
    .values({ id: row.id, roundId: body.roundId, body: JSON.stringify(body), revealedAt: body.revealedAt })
    .run();
}

/** A computed result as JSON, by the hash of what it was computed from. */
export function findResult(db: Db, key: string): string | undefined {
  return db.select({ body: result.body }).from(result).where(eq(result.key, key)).get()?.body;
}

export function saveResult(
  db: Db,
  row: { readonly key: string; readonly body: string; readonly computedAt: number },
): void {
  db.insert(result).values(row).onConflictDoNothing().run();
}

/** The keys of all stored results. */
export function listResultKeys(db: Db): string[] {
  return db
    .select({ key: result.key })
    .from(result)
    .orderBy(asc(result.key))
    .all()
    .map((row) => row.key);
}
