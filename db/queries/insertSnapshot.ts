import type { Snapshot } from '#lib/contract/snapshot';
import type { Db } from '../open';
import { snapshot } from '../schemaAfterReveal';

export function insertSnapshot(db: Db, row: { readonly id: string; readonly body: Snapshot }): void {
  const { body } = row;
  db.insert(snapshot).values({ id: row.id, roundId: body.roundId, body: JSON.stringify(body), revealedAt: body.revealedAt }).run();
}
