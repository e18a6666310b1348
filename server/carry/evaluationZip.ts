import { createHash } from 'node:crypto';
import { createReadStream, existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import yazl from 'yazl';
import { picturesFolder } from '#db/picturesFolder';
import type { Db } from '#db/open';
import { type EvaluationFile, evaluationFileName } from '#lib/contract/evaluationFile';
import type { Leaving, LeavingPicture } from '../reveal/evaluationFile';

type Picture = EvaluationFile['pictures'][number];

const endings: Readonly<Record<string, string>> = { 'image/webp': 'webp', 'video/mp4': 'mp4', 'video/webm': 'webm' };

/**
 * An evaluation as one zip, made while it is read: the text first, then each picture once, under the hash of its bytes. Of a
 * picture whose file is lost the row goes along and no bytes. The same evaluation gives the same bytes.
 */
export async function evaluationZip(db: Db, { file, pictures }: Leaving): Promise<Readable> {
  const folder = picturesFolder(db);
  const hashed: Picture[] = [];
  const paths = new Map<string, string>();
  for (const picture of pictures) {
    const found = await hashPicture(folder, picture);
    if (!found) continue;
    hashed.push(found);
    paths.set(found.name, join(folder, picture.file));
  }
  const zip = new yazl.ZipFile();
  const mtime = new Date(file.origin.at);
  const text = JSON.stringify({
    ...file,
    pictures: hashed.toSorted((one, other) => one.photo.localeCompare(other.photo)),
  });
  zip.addBuffer(Buffer.from(`${text}\n`), evaluationFileName, { mtime, mode: 0o100600, forceDosTimestamp: true });
  // Pictures are packed as they are; packing them again gains nothing.
  for (const [name, path] of [...paths].sort(([one], [other]) => one.localeCompare(other)))
    zip.addFile(path, name, { mtime, mode: 0o100600, compress: false, forceDosTimestamp: true });
  zip.end();
  // What cannot be read any more ends the stream, so that nobody takes half a file for a whole one.
  const { outputStream } = zip;
  const stream = outputStream as Readable;
  zip.on('error', (error: Error) => stream.destroy(error));
  return stream;
}

async function hashPicture(folder: string, { photo, file, contentType }: LeavingPicture): Promise<Picture | null> {
  const path = join(folder, file);
  const ending = endings[contentType];
  if (ending === undefined || !existsSync(path)) return null;
  const hash = createHash('sha256');
  await pipeline(createReadStream(path), hash);
  const sha256 = hash.digest('hex');
  return { photo, name: `pictures/${sha256}.${ending}`, sha256, bytes: statSync(path).size };
}
