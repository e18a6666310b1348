import type { Db } from './open';

/** How many rows this connection has changed since it opened: moves with every write. */
export function countChanges(db: Db): number {
  return db.$client.prepare<[], number>('SELECT total_changes()').pluck().get() ?? 0;
}
