import { dirname, join } from 'node:path';
import type { Db } from './open';

/** Pictures lie in a folder beside the data file they belong to. */
export function picturesFolder(db: Db): string {
  return picturesBeside(db.$client.name);
}

export const picturesBeside = (file: string): string => join(dirname(file), 'pictures');
