// drizzle writes no STRICT tables: this adds the word to every CREATE TABLE of the generated migrations.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';

const folder = new URL('./migrations/', import.meta.url);
for (const name of readdirSync(folder).filter((file) => file.endsWith('.sql'))) {
  const sql = readFileSync(new URL(name, folder), 'utf8');
  writeFileSync(new URL(name, folder), sql.replace(/(CREATE TABLE [\s\S]*?\n\))(;)/g, '$1 STRICT$2'));
}
