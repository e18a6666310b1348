import { createHash } from 'node:crypto';
import { open, mkdir, rm } from 'node:fs/promises';
import type { IncomingMessage } from 'node:http';
import { dirname, join } from 'node:path';
import { DomainError } from '#lib/errors';

/** Where an upload lies until its files are written. */
export const uploadPath = (folder: string, file: string): string => join(folder, `${file}.upload`);

/**
 * A request's bytes, at most `most` of them, into a new file for this account alone; answers their SHA-256 in hex. Memory holds no picture, however slow
 * the link. Throws file-too-large, by the announced length where there is one, or the disk's fault; then no file is left, and
 * the request can still be answered.
 */
export async function receiveUpload(request: IncomingMessage, { path, most }: { readonly path: string; readonly most: number }): Promise<string> {
  const tooLarge = () => new DomainError('file-too-large', { bytes: most });
  if (Number(request.headers['content-length'] ?? 0) > most) throw tooLarge();
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const handle = await open(path, 'wx', 0o600);
  try {
    let size = 0;
    const hash = createHash('sha256');
    for await (const chunk of request.iterator({ destroyOnReturn: false })) {
      if (!Buffer.isBuffer(chunk)) continue;
      size += chunk.byteLength;
      if (size > most) throw tooLarge();
      hash.update(chunk);
      await handle.appendFile(chunk);
    }
    return hash.digest('hex');
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  } finally {
    await handle.close();
  }
}
