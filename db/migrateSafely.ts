import { copyFileSync, existsSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { invariant } from '#lib/invariant';
import type { Db } from './open';
import { migrationsFolder } from './migrationsFolder';

/**
 * Runs the pending migrations so that none can lose a row: a copy of the file first, foreign keys off on the connection
 * (inside the migrator's own transaction the pragma would do nothing, and a table rebuild would empty its children),
 * then a foreign key check and a comparison of row counts. On any difference the copy is put back and the start fails.
 */
export function migrateSafely(db: Db, file: string): void {
  const client = db.$client;
  const before = countRows(db);
  const copy = `${file}.before-migration`;
  if (file !== ':memory:' && before.size > 0) {
    client.pragma('wal_checkpoint(TRUNCATE)');
    copyFileSync(file, copy);
  }
  client.pragma('foreign_keys = OFF');
  try {
    migrate(db, { migrationsFolder: fileURLToPath(migrationsFolder()) });
    const broken = client.pragma('foreign_key_check');
    invariant(Array.isArray(broken) && broken.length === 0, 'a migration broke a foreign key');
    const after = countRows(db);
    for (const [table, rows] of before) invariant((after.get(table) ?? rows) === rows, `a migration lost rows of ${table}`);
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

/** Rows of every table of ours; empty for a new file. */
function countRows(db: Db): Map<string, number> {
  const tables = db.$client
    .prepare<[], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\'")
    .all();
  const counts = new Map<string, number>();
  for (const { name } of tables) {
    const row = db.$client.prepare<[], { n: number }>(`SELECT count(*) AS n FROM "${name}"`).get();
    counts.set(name, row?.n ?? 0);
  }
  return counts;
}
