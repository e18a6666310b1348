import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Tries the folder by really writing: permissions, a full disk and a read-only mount are only known by that.
 *
 * @param {string} folder created if missing, readable by its owner only since it holds scores
 * @returns {string | undefined} one line, or undefined when the folder will do
 */
export function dataFolderComplaint(folder) {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const probe = join(folder, `.write-probe-${process.pid}`);
    writeFileSync(probe, '');
    rmSync(probe);
    return undefined;
  } catch (error) {
    return `The data folder ${folder} cannot be written (${error.code ?? error.message}). Choose another with EVENSTACK_DATA.`;
  }
}
