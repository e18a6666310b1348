import { closeSync, copyFileSync, existsSync, fsyncSync, linkSync, openSync, renameSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';

/**
 * Puts `staged` in the place of `file`, in one step, and keeps what was there as `beside`; answers whether there was
 * anything. At no moment is there no data file: a start in between would make an empty one.
 */
export function replaceFile(
  file: string,
  { staged, beside }: { readonly staged: string; readonly beside: string },
): boolean {
  const there = existsSync(file);
  if (there) {
    gather(file);
    keepAs(file, beside);
  }
  for (const part of ['-wal', '-shm']) {
    if (existsSync(`${file}${part}`)) renameSync(`${file}${part}`, `${beside}${part}`);
  }
  syncPath(staged);
  renameSync(staged, file);
  syncPath(dirname(file));
  return there;
}

/** Brings the write-ahead log into the file, so that it is whole by itself; a file that cannot be read keeps its log beside it. */
function gather(file: string): void {
  try {
    const client = new Sqlite(file, { fileMustExist: true });
    try {
      client.pragma('wal_checkpoint(TRUNCATE)');
    } finally {
      client.close();
    }
  } catch {
    // Unreadable: it is kept as it is, log and all.
  }
}

function keepAs(file: string, beside: string): void {
  try {
    linkSync(file, beside);
  } catch {
    // No second name for one file on this disk: a copy then.
    rmSync(beside, { force: true });
    copyFileSync(file, beside);
  }
  syncPath(beside);
}

/** Brings a file, or the names in a folder, onto the disk. */
export function syncPath(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
