import { closeSync, fsyncSync, openSync } from 'node:fs';

/** Brings a file, or the names in a folder, onto the disk. */
export function syncPath(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
