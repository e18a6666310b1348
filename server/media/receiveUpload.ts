import { createWriteStream } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import type { IncomingMessage } from 'node:http';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { DomainError } from '#lib/errors';

/** Where an upload lies until its files are written. */
export const uploadPath = (folder: string, file: string): string => join(folder, `${file}.upload`);

/**
 * A request's bytes, at most `most` of them, into a new file for this account alone: memory holds no picture, however slow
 * the link. Throws file-too-large, by the announced length where there is one; then no file is left.
 */
export async function receiveUpload(request: IncomingMessage, { path, most }: { readonly path: string; readonly most: number }): Promise<void> {
  const tooLarge = () => new DomainError('file-too-large', { bytes: most });
  if (Number(request.headers['content-length'] ?? 0) > most) throw tooLarge();
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  let size = 0;
  const counted = async function* (chunks: AsyncIterable<Buffer>) {
    for await (const chunk of chunks) {
      size += chunk.byteLength;
      if (size > most) throw tooLarge();
      yield chunk;
    }
  };
  try {
    await pipeline(request, counted, createWriteStream(path, { flags: 'wx', mode: 0o600 }));
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  }
}
