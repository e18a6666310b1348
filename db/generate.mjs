// `npm run db:generate -- --name what`: a migration from the schema. drizzle writes no STRICT tables, so the word is added to every
// CREATE TABLE of the generated files. Read the result before it is committed.
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';

const tool = new URL('../node_modules/drizzle-kit/bin.cjs', import.meta.url).pathname;
const { status } = spawnSync(
  process.execPath,
  [tool, 'generate', '--config', 'db/drizzle.config.ts', ...process.argv.slice(2)],
  { stdio: 'inherit' },
);

const folder = new URL('./migrations/', import.meta.url);
for (const name of readdirSync(folder).filter((file) => file.endsWith('.sql'))) {
  const file = new URL(name, folder);
  const sql = readFileSync(file, 'utf8');
  const strict = sql.replace(/(CREATE TABLE [\s\S]*?\n\))(;)/g, '$1 STRICT$2');
  if (strict !== sql) writeFileSync(file, strict);
}
process.exitCode = status ?? 1;
