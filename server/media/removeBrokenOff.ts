import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Removes what uploads left that a stop or a power cut broke off. Whole pictures stay, also those that no row names: a
 * later backup may name them.
 */
export function removeBrokenOff(folder: string): void {
  for (const name of namesIn(folder)) if (/\.(upload|part)$/.test(name)) rmSync(join(folder, name), { force: true });
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    // No picture was ever brought.
    return [];
  }
}
