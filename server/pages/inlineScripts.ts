import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * CSP sources for every inline script of the built pages, so that no 'unsafe-inline' is needed. The hashes change with
 * every build and are read at start. Pages are static, so there is nothing else inline.
 */
export function inlineScripts(buildFolder: string): string {
  const pages = join(buildFolder, 'server', 'app');
  const hashes = new Set<string>();
  for (const file of readdirSync(pages, { recursive: true, encoding: 'utf8' })) {
    if (!file.endsWith('.html')) continue;
    for (const [, body] of readFileSync(join(pages, file), 'utf8').matchAll(/<script(?![^>]*\bsrc=)[^>]*>([\s\S]*?)<\/script>/g)) {
      hashes.add(createHash('sha256').update(body ?? '').digest('base64'));
    }
  }
  return [...hashes].map((hash) => ` 'sha256-${hash}'`).join('');
}
