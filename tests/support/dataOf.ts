import type { Db } from '#db/open';

/** Every row of every table as one text: two equal texts are two equal data files. */
export function dataOf(db: Db): string {
  const tables = db.$client
    .prepare<[], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
    .all();
  return tables
    .map(({ name }) => `${name}\n${JSON.stringify(db.$client.prepare(`SELECT * FROM "${name}"`).all())}`)
    .join('\n');
}
