import type { Db } from './open';
import { writesStopped } from './writesStopped';

/** Brings everything into the one file and closes it. After a failed disk nothing more is written: the next start reads what is there. */
export function closeDb(db: Db): void {
  if (!db.$client.open || writesStopped(db)) return;
  db.$client.pragma('wal_checkpoint(TRUNCATE)');
  db.$client.close();
}
