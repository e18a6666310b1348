import { dirname, join } from 'node:path';
import type { Db } from './open';

/** Pictures lie in a folder beside the data file they belong to. */
export function picturesFolder(db: Db): string {
  return join(dirname(db.$client.name), 'pictures');
}
