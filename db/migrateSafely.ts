import { copyFileSync, existsSync, readFileSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import Sqlite from 'better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { z } from 'zod';
import { invariant } from '#lib/invariant';
import { countRows } from './checkFile';

type Migrated = Parameters<typeof migrate>[0] & { readonly $client: Sqlite.Database };

/**
 * Runs the pending migrations so that none can lose a row: a copy of the file first, foreign keys off on the connection
 * (inside the migrator's own transaction the pragma would do nothing, and a table rebuild would empty its children),
 * then a foreign key check and a comparison of row counts. On any difference the copy is put back and the start fails;
 * so it does, untouched, for a file that a later version made.
 */
export function migrateSafely(db: Migrated, file: string, folder: URL = migrationsFolder()): void {
  const client = db.$client;
  const stand = migrationStand(client, folder);
  if (stand === 'newer' || stand === 'foreign') client.close();
  invariant(stand !== 'newer', 'this data file was made by a later version of Evenstack');
  invariant(stand !== 'foreign', 'this is not a data file of Evenstack');
  if (stand === 'current') return;
  const before = countRows(client);
  const copy = `${file}.before-migration`;
  if (file !== ':memory:' && before.size > 0) {
    client.pragma('wal_checkpoint(TRUNCATE)');
    copyFileSync(file, copy);
  }
  client.pragma('foreign_keys = OFF');
  try {
    migrate(db, { migrationsFolder: fileURLToPath(folder) });
    const broken = client.pragma('foreign_key_check');
    invariant(Array.isArray(broken) && broken.length === 0, 'a migration broke a foreign key');
    const after = countRows(client);
    for (const [table, rows] of before)
      invariant((after.get(table) ?? 0) === rows, `a migration lost rows of ${table}`);
  } catch (error) {
    client.close();
    if (existsSync(copy)) {
      for (const part of [`${file}-wal`, `${file}-shm`]) rmSync(part, { force: true });
      copyFileSync(copy, file);
    }
    throw error;
  }
  client.pragma('foreign_keys = ON');
  rmSync(copy, { force: true });
}

const journalSchema = z.object({ entries: z.array(z.object({ when: z.number() })) });

type MigrationStand = 'empty' | 'current' | 'older' | 'newer' | 'foreign';

/**
 * Where a file stands among our migrations: empty (a new file), current, older (some are still to run), newer (made by a
 * later version of the app), or foreign (not a data file of ours).
 */
function migrationStand(client: Sqlite.Database, folder: URL = migrationsFolder()): MigrationStand {
  const known = journalSchema
    .parse(JSON.parse(readFileSync(new URL('meta/_journal.json', folder), 'utf8')))
    .entries.map(({ when }) => when);
  const tables = client.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
  // The migrator makes its own table before its transaction: a first start that broke off may have left it alone.
  if (tables.every((name) => name === '__drizzle_migrations')) return 'empty';
  if (!tables.includes('__drizzle_migrations') || !tables.includes('record')) return 'foreign';
  const run = client
    .prepare<[], number>('SELECT CAST(created_at AS INTEGER) FROM __drizzle_migrations ORDER BY 1')
    .pluck()
    .all();
  if (run.at(-1) === known.at(-1)) return 'current';
  if (run.some((when) => when > (known.at(-1) ?? 0))) return 'newer';
  return run.every((when) => known.includes(when)) ? 'older' : 'foreign';
}

/** Beside this file in the sources, or two steps up from the bundle in dist/. */
export function migrationsFolder(): URL {
  const found = ['./migrations/', '../db/migrations/', '../../db/migrations/']
    .map((path) => new URL(path, import.meta.url))
    .find((url) => existsSync(new URL('meta/_journal.json', url)));
  invariant(found, 'the migrations folder is missing');
  return found;
}

/** Where a file on the disk stands among our migrations, without changing it. Throws when it cannot be read as a data file at all. */
export function standOfFile(file: string): MigrationStand {
  const client = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    return migrationStand(client);
  } finally {
    client.close();
  }
}
