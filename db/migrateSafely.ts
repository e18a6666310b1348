import { copyFileSync, existsSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { invariant } from '#lib/invariant';
import { countRows } from './countRows';
import { migrationsFolder } from './migrationsFolder';
import { migrationStand } from './migrationStand';
import type { Db } from './open';

/**
 * Runs the pending migrations so that none can lose a row: a copy of the file first, foreign keys off on the connection
 * (inside the migrator's own transaction the pragma would do nothing, and a table rebuild would empty its children),
 * then a foreign key check and a comparison of row counts. On any difference the copy is put back and the start fails;
 * so it does, untouched, for a file that a later version made.
 */
export function migrateSafely(db: Db, file: string, folder: URL = migrationsFolder()): void {
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
    for (const [table, rows] of before) invariant((after.get(table) ?? 0) === rows, `a migration lost rows of ${table}`);
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
