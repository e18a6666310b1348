import Sqlite from 'better-sqlite3';
import type { DomainErrorCode } from '#lib/errors';
import type { Db } from './open';

export type StorageFault = Extract<DomainErrorCode, 'busy' | 'disk-full' | 'store-failed'>;

/** What SQLite's result codes say of the disk below; the names are SQLite's own (sqlite.org/rescode.html). */
const faults: readonly (readonly [RegExp, StorageFault])[] = [
  [/^SQLITE_FULL/, 'disk-full'],
  [/^SQLITE_BUSY/, 'busy'],
  [/^SQLITE_(IOERR|CORRUPT|NOTADB|CANTOPEN|READONLY)/, 'store-failed'],
];

/** Null for every error that is not the disk's. */
export function storageFault(error: unknown): StorageFault | null {
  if (error instanceof Sqlite.SqliteError) return faults.find(([code]) => code.test(error.code))?.[1] ?? null;
  return error instanceof Error && error.cause !== undefined ? storageFault(error.cause) : null;
}

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
