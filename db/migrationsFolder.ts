import { existsSync } from 'node:fs';
import { invariant } from '#lib/invariant';

/** Beside this file in the sources, or two steps up from the bundle in dist/. */
export function migrationsFolder(): URL {
  const found = ['./migrations/', '../db/migrations/', '../../db/migrations/']
    .map((path) => new URL(path, import.meta.url))
    .find((url) => existsSync(new URL('meta/_journal.json', url)));
  invariant(found, 'the migrations folder is missing');
  return found;
}
