import { existsSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import { isDeepStrictEqual } from 'node:util';
import { checkFile, fileFacts, type FileFacts } from './checkFile';
import { syncPath } from './replaceFile';

/**
 * Copies a data file in use to `target`, whole or not at all, and says what the copy holds. The copy is one plain file of
 * mode 0600, opened and compared with what the source held at that moment before it gets its name. The source is only
 * read, in one transaction of a connection of its own, so whoever writes to it is not kept waiting.
 */
export async function backUp(source: string, target: string): Promise<FileFacts> {
  const part = `${target}.part`;
  rmSync(part, { force: true });
  try {
    writeFileSync(part, '', { mode: 0o600 });
    const held = await copyPages(source, part);
    leaveOneFile(part);
    const copied = checkFile(part, 'quick');
    if (!isDeepStrictEqual(copied, held)) throw new Error('the backup does not hold what the data file held');
    syncPath(part);
    renameSync(part, target);
    syncPath(dirname(target));
    return copied;
  } catch (error) {
    for (const rest of [part, `${part}-journal`, `${part}-wal`, `${part}-shm`]) rmSync(rest, { force: true });
    throw error;
  }
}

async function copyPages(source: string, part: string): Promise<FileFacts> {
  const client = new Sqlite(source, { readonly: true, fileMustExist: true });
  try {
    // Held to the end: every page and every count are of one moment.
    client.exec('BEGIN');
    const held = fileFacts(client);
    await client.backup(part, { progress: () => 0x7fffffff });
    return held;
  } finally {
    client.close();
  }
}

/** Out of WAL mode: a copy without companions can be moved about and opened read-only. */
function leaveOneFile(part: string): void {
  const client = new Sqlite(part);
  try {
    client.pragma('journal_mode = DELETE');
  } finally {
    client.close();
  }
  if (existsSync(`${part}-wal`) && statSync(`${part}-wal`).size > 0)
    throw new Error('the backup could not be made one file');
}
