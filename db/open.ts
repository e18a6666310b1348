import { chmodSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import { invariant } from '#lib/invariant';
import { migrateSafely } from './migrateSafely';

export type Db = BetterSQLite3Database & { readonly $client: Sqlite.Database };

/**
 * Opens (or creates) a data file, migrates it and makes it durable: WAL with synchronous=FULL, read back after a write
 * because right after the switch to WAL SQLite still reports the old value. Throws when the setting did not take.
 */
export function open(file: string): Db {
  if (file !== ':memory:') mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
  const client = new Sqlite(file);
  if (file !== ':memory:') chmodSync(file, 0o600);
  client.pragma('journal_mode = WAL');
  client.pragma('foreign_keys = ON');
  client.pragma('busy_timeout = 5000');
  client.pragma('trusted_schema = OFF');
  client.pragma('cell_size_check = ON');
  const db: Db = drizzle({ client });
  migrateSafely(db, file);
  client.pragma('synchronous = FULL');
  client.prepare('INSERT INTO boot (at) VALUES (?)').run(0);
  client.prepare('DELETE FROM boot').run();
  invariant(client.pragma('synchronous', { simple: true }) === 2, 'synchronous=FULL did not take');
  return db;
}

/** Opens a data file for reading alone: nothing is migrated, and nothing of it changes. Throws when it is not there. */
export function openReadOnly(file: string): Db {
  return drizzle({ client: new Sqlite(file, { readonly: true, fileMustExist: true }) });
}

/** Brings everything into the one file and closes it. After a failed disk nothing more is written: the next start reads what is there. */
export function closeDb(db: Db): void {
  if (!db.$client.open || writesStopped(db)) return;
  db.$client.pragma('wal_checkpoint(TRUNCATE)');
  db.$client.close();
}

/** Whether a failing disk has ended all writing until the next start. */
export function writesStopped(db: Db): boolean {
  return db.$client.pragma('query_only', { simple: true }) === 1;
}

/** Whether the data can be read, and no failing disk has ended all writing. Throws where reading fails. */
export function readsAndWrites(db: Db): boolean {
  db.$client.prepare('SELECT count(*) FROM sqlite_schema').get();
  return !writesStopped(db);
}

/** How many rows this connection has changed since it opened: moves with every write. */
export function countChanges(db: Db): number {
  return db.$client.prepare<[], number>('SELECT total_changes()').pluck().get() ?? 0;
}
