import { chmodSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import { storageFault } from './storageFault';

export type Hold = { release(): void };

/**
 * Takes a data file for this process alone, or answers null when another holds it (after `patience` milliseconds). The
 * hold is an exclusive lock of SQLite's on a file beside it: the system frees it when the process ends, however it ends,
 * so no crash leaves a lock behind. Readers of the data file itself are not hindered.
 */
export function holdData(file: string, patience: number): Hold | null {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
  const lockFile = `${file}.lock`;
  const client = new Sqlite(lockFile, { timeout: patience });
  chmodSync(lockFile, 0o600);
  try {
    client.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    client.close();
    if (storageFault(error) === 'busy') return null;
    throw error;
  }
  return { release: () => client.close() };
}
