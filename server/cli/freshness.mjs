import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fingerprint } from './fingerprint.mjs';
import { fromRoot } from './root.mjs';

const stampPath = (target) => fromRoot('dist', `.${target}.json`);

function readStamp(target) {
  try {
    return JSON.parse(readFileSync(stampPath(target), 'utf8'));
  } catch {
    // Missing or half written: the same as never built.
    return undefined;
  }
}

const writeStamp = (target, stamp) => {
  mkdirSync(fromRoot('dist'), { recursive: true });
  writeFileSync(stampPath(target), JSON.stringify(stamp));
};

/** Says that what lies in the target's place can no longer be trusted. */
export const forget = (target) => rmSync(stampPath(target), { force: true });

/**
 * Calls `build` unless the target was built from the very same inputs.
 *
 * @param {{ target: string, inputs: string[], proof: string, build: () => Promise<void> }} work `proof` is a file the build leaves
 */
export async function buildWhenChanged({ target, inputs, proof, build }) {
  const now = fingerprint(inputs);
  const built = existsSync(fromRoot(proof)) ? readStamp(target) : undefined;
  if (built?.glance === now.glance) return;
  const content = now.content();
  if (built?.content !== content) {
    // A build that dies half way must not look finished.
    forget(target);
    await build();
  }
  writeStamp(target, { glance: now.glance, content });
}
