import { createHash } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmSync,
  statfsSync,
  statSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { reserve } from '#lib/backup/backupsToKeep';
import { syncPath } from './replaceFile';

/**
 * Copies of pictures beside the backups. A picture never changes, so each is kept once, under the hash of what its file held
 * then: `<sha256>-<name>`. On one disk the copy is a second name of the same file, which takes no room.
 */
export type PictureFolders = { readonly pictures: string; readonly copies: string };

/** Pictures that the data name and whose files are not there. */
export type KeptPictures = { readonly copied: number; readonly missing: number };

/** What the pictures folder lacked: brought back, without a copy, or with a copy that is no longer what it was. */
export type BroughtBack = { readonly brought: number; readonly missing: number; readonly damaged: number };

type PictureRow = { readonly name: string; readonly removed: number };

/** What the disk can do. */
export type Disk = {
  /** Gives a file a second name, or throws: on another disk, and where second names are not known. */
  readonly secondName: (file: string, name: string) => void;
  /** Bytes free where a folder lies; more than any where the disk cannot be asked. */
  readonly free: (folder: string) => number;
};

const realDisk: Disk = {
  secondName: linkSync,
  free: (folder) => {
    try {
      const { bavail, bsize } = statfsSync(folder);
      return bavail * bsize;
    } catch {
      // Then the copy itself finds out.
      return Number.POSITIVE_INFINITY;
    }
  },
};

/**
 * Keeps a copy of every picture that a data file names and that has none yet, and gives up those of pictures removed for good. Throws
 * when the disk fails, and when a copy on another disk would take what is left free there for scores.
 */
export function keepPictures(file: string, { pictures, copies }: PictureFolders, disk: Disk = realDisk): KeptPictures {
  mkdirSync(copies, { recursive: true, mode: 0o700 });
  for (const name of readdirSync(copies)) if (name.endsWith('.part')) rmSync(join(copies, name), { force: true });
  const kept = copiesIn(copies);
  const { wanted, removed } = picturesOf(file);
  let [copied, missing] = [0, 0];
  for (const name of wanted) {
    if (kept.has(name)) continue;
    const source = join(pictures, name);
    if (existsSync(source)) {
      bring(source, join(copies, `${hashOf(source)}-${name}`), { ...disk, spare: reserve });
      copied += 1;
    } else missing += 1;
  }
  for (const name of removed) {
    const copy = kept.get(name);
    if (copy !== undefined) rmSync(join(copies, copy.file), { force: true });
  }
  if (copied > 0) syncPath(copies);
  return { copied, missing };
}

/** Puts back what a data file names and the pictures folder lacks, from the first of some folders of copies that has it whole. */
export function bringBackPictures(file: string, pictures: string, from: readonly string[]): BroughtBack {
  const copies = from.map((folder) => ({ folder, found: copiesIn(folder) }));
  let [brought, missing, damaged] = [0, 0, 0];
  for (const name of picturesOf(file).wanted) {
    if (existsSync(join(pictures, name))) continue;
    const candidates = copies.flatMap(({ folder, found }) => {
      const copy = found.get(name);
      return copy ? [{ path: join(folder, copy.file), hash: copy.hash }] : [];
    });
    const whole = candidates.find(({ path, hash }) => hashOf(path) === hash);
    if (whole) {
      mkdirSync(pictures, { recursive: true, mode: 0o700 });
      bring(whole.path, join(pictures, name), { ...realDisk, spare: 0 });
      brought += 1;
    } else if (candidates.length > 0) damaged += 1;
    else missing += 1;
  }
  if (brought > 0) syncPath(pictures);
  return { brought, missing, damaged };
}

function picturesOf(file: string): { readonly wanted: ReadonlySet<string>; readonly removed: readonly string[] } {
  const client = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    const rows = client
      .prepare<[], PictureRow>(
        `SELECT file AS name, removed_at IS NOT NULL AS removed FROM photo
         UNION SELECT thumb, removed_at IS NOT NULL FROM photo WHERE thumb IS NOT NULL`,
      )
      .all();
    const wanted = new Set(rows.filter(({ removed }) => removed === 0).map(({ name }) => name));
    return {
      wanted,
      removed: rows.filter(({ name, removed }) => removed === 1 && !wanted.has(name)).map(({ name }) => name),
    };
  } finally {
    client.close();
  }
}

/** By the name of the picture. */
function copiesIn(folder: string): ReadonlyMap<string, { readonly file: string; readonly hash: string }> {
  if (!existsSync(folder)) return new Map();
  return new Map(
    readdirSync(folder).flatMap((file) => {
      const [, hash, name] = /^([0-9a-f]{64})-(.+)$/.exec(file) ?? [];
      return hash === undefined || name === undefined ? [] : [[name, { file, hash }] as const];
    }),
  );
}

/** A second name for the same file, or on another disk a copy that is read back before it gets its name. */
function bring(
  source: string,
  target: string,
  { secondName, free, spare }: Disk & { /** Bytes to leave free. */ readonly spare: number },
): void {
  try {
    secondName(source, target);
    return;
  } catch {
    // Another disk, or one that knows no second names.
  }
  if (free(dirname(target)) < statSync(source).size + spare)
    throw Object.assign(new Error('too little room on the disk for a copy of a picture'), { code: 'ENOSPC' });
  const part = `${target}.part`;
  copyFileSync(source, part);
  chmodSync(part, 0o600);
  syncPath(part);
  if (hashOf(part) !== hashOf(source)) throw new Error('the copy of a picture is not what its file holds');
  renameSync(part, target);
}

function hashOf(path: string): string {
  const hash = createHash('sha256');
  const handle = openSync(path, 'r');
  try {
    const chunk = Buffer.alloc(1_048_576);
    for (let read = readSync(handle, chunk); read > 0; read = readSync(handle, chunk))
      hash.update(chunk.subarray(0, read));
  } finally {
    closeSync(handle);
  }
  return hash.digest('hex');
}
