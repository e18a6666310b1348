import type Sqlite from 'better-sqlite3';

/** Rows of every table of ours, by table; empty for a new file. */
export function countRows(client: Sqlite.Database): ReadonlyMap<string, number> {
  const tables = client
    .prepare<[], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\' ORDER BY name")
    .all();
  return new Map(tables.map(({ name }) => [name, client.prepare<[], number>(`SELECT count(*) FROM "${name}"`).pluck().get() ?? 0]));
}
