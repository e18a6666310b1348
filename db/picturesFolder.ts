import { mkdir, open, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Db } from './open';

/** Pictures lie in a folder beside the data file they belong to. */
export function picturesFolder(db: Db): string {
  return picturesBeside(db.$client.name);
}

export const picturesBeside = (file: string): string => join(dirname(file), 'pictures');

/** Writes one file whole or not at all, for this account alone, and onto the disk before it is named. */
export async function writePicture(folder: string, name: string, bytes: Uint8Array): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const unfinished = join(folder, `${name}.part`);
  const handle = await open(unfinished, 'w', 0o600);
  try {
    await handle.writeFile(bytes);
    await handle.sync();
  } finally {
    await handle.close();
  }
  await rename(unfinished, join(folder, name));
}

export async function removePicture(folder: string, name: string): Promise<void> {
  await rm(join(folder, name), { force: true });
}
