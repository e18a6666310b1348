import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fromRoot } from './root.mjs';

/** All files below the given files and folders that exist, in a fixed order; dot files are editors' business. */
function filesBelow(inputs) {
  const found = [];
  const visit = (path) => {
    const stat = statSync(fromRoot(path), { throwIfNoEntry: false });
    if (stat === undefined) return;
    if (!stat.isDirectory()) {
      found.push({ path, size: stat.size, changedMs: stat.mtimeMs });
      return;
    }
    for (const name of readdirSync(fromRoot(path)).sort()) if (!name.startsWith('.')) visit(`${path}/${name}`);
  };
  inputs.forEach(visit);
  return found;
}

const digest = (pieces) => {
  const hash = createHash('sha256');
  for (const piece of pieces) hash.update(piece).update('\0');
  return hash.digest('hex');
};

/**
 * Two answers to "did anything change?": `glance` reads only names, sizes and times and may say yes for nothing; `content`
 * reads every byte and is asked only then.
 *
 * @param {string[]} inputs files and folders relative to the project's folder
 */
export function fingerprint(inputs) {
  const files = filesBelow(inputs);
  return {
    glance: digest(files.flatMap(({ path, size, changedMs }) => [path, `${size} ${changedMs}`])),
    content: () => digest(files.flatMap(({ path }) => [path, readFileSync(fromRoot(path))])),
  };
}
