import type { Db } from './open';
import { storageFault, type StorageFault } from './storageFault';

/**
 * Names the disk's part in an error, and after a failed read or sync ends all writing on this connection. After a failed
 * fsync the system may have dropped what it could not write and call the next fsync a success, so trying again could
 * acknowledge what is on no disk (Rebello et al., "Can Applications Recover from fsync Failures?", USENIX ATC 2020).
 * Reading goes on; a new start reads the file afresh. A full disk only refuses: SQLite has rolled back, and room may be made.
 */
export function settleFault(db: Db, error: unknown): StorageFault | null {
  const fault = storageFault(error);
  if (fault === 'store-failed' && db.$client.open) db.$client.pragma('query_only = ON');
  return fault;
}
