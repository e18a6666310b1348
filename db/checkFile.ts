import Sqlite from 'better-sqlite3';

/** What a whole data file says of itself; two files with the same facts hold as many rows and the same record. */
export type FileFacts = {
  readonly rows: ReadonlyMap<string, number>;
  /** Place and hash of the newest line of the record; null while it is empty. */
  readonly head: { readonly seq: number; readonly hash: string } | null;
};

/** `quick` skips what only a damaged index would show. */
type CheckDepth = 'quick' | 'full';

/**
 * Opens a data file read-only and looks it over: pages and indices by SQLite's own check, foreign keys, counts, the head
 * of the record. Throws, naming what is wrong, for a file that is damaged.
 */
export function checkFile(file: string, depth: CheckDepth): FileFacts {
  const client = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    const answer = client.pragma(depth === 'quick' ? 'quick_check(1)' : 'integrity_check(10)', { simple: true });
    if (answer !== 'ok') throw new Error(`the file is damaged: ${String(answer)}`);
    const broken = client.pragma('foreign_key_check');
    if (!Array.isArray(broken) || broken.length > 0)
      throw new Error('rows of the file refer to rows that are not there');
    return fileFacts(client);
  } finally {
    client.close();
  }
}

export function fileFacts(client: Sqlite.Database): FileFacts {
  const rows = countRows(client);
  const head =
    client.prepare<[], { seq: number; hash: string }>('SELECT seq, hash FROM record ORDER BY seq DESC LIMIT 1').get() ??
    null;
  return { rows, head };
}

/** Rows of every table of ours, by table; empty for a new file. */
export function countRows(client: Sqlite.Database): ReadonlyMap<string, number> {
  const tables = client
    .prepare<[], { name: string }>(
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\' ORDER BY name",
    )
    .all();
  return new Map(
    tables.map(({ name }) => [name, client.prepare<[], number>(`SELECT count(*) FROM "${name}"`).pluck().get() ?? 0]),
  );
}
