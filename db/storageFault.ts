import Sqlite from 'better-sqlite3';
import type { DomainErrorCode } from '#lib/errors';

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
