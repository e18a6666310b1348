import Sqlite from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import type { Db } from './open';

/** Opens a data file for reading alone: nothing is migrated, and nothing of it changes. Throws when it is not there. */
export function openReadOnly(file: string): Db {
  return drizzle({ client: new Sqlite(file, { readonly: true, fileMustExist: true }) });
}
