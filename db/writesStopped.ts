import type { Db } from './open';

/** Whether a failing disk has ended all writing until the next start. */
export function writesStopped(db: Db): boolean {
  return db.$client.pragma('query_only', { simple: true }) === 1;
}
