import { readFileSync } from 'node:fs';
import type Sqlite from 'better-sqlite3';
import { z } from 'zod';
import { migrationsFolder } from './migrationsFolder';

const journalSchema = z.object({ entries: z.array(z.object({ when: z.number() })) });

export type MigrationStand = 'empty' | 'current' | 'older' | 'newer' | 'foreign';

/**
 * Where a file stands among our migrations: empty (a new file), current, older (some are still to run), newer (made by a
 * later version of the app), or foreign (not a data file of ours).
 */
export function migrationStand(client: Sqlite.Database, folder: URL = migrationsFolder()): MigrationStand {
  const known = journalSchema.parse(JSON.parse(readFileSync(new URL('meta/_journal.json', folder), 'utf8'))).entries.map(({ when }) => when);
  const tables = client.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
  // The migrator makes its own table before its transaction: a first start that broke off may have left it alone.
  if (tables.every((name) => name === '__drizzle_migrations')) return 'empty';
  if (!tables.includes('__drizzle_migrations') || !tables.includes('record')) return 'foreign';
  const run = client.prepare<[], number>('SELECT CAST(created_at AS INTEGER) FROM __drizzle_migrations ORDER BY 1').pluck().all();
  if (run.at(-1) === known.at(-1)) return 'current';
  if (run.some((when) => when > (known.at(-1) ?? 0))) return 'newer';
  return run.every((when) => known.includes(when)) ? 'older' : 'foreign';
}
