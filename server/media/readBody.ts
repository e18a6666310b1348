import { createHash } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { DomainError } from '#lib/errors';

export type Body = {
  readonly bytes: Buffer;
  /** SHA-256. */
  readonly hash: string;
};

/** A request's bytes, at most `most` of them. Throws file-too-large, by the announced length where there is one. */
export async function readBody(request: IncomingMessage, most: number): Promise<Body> {
  if (Number(request.headers['content-length'] ?? 0) > most) throw new DomainError('file-too-large', { bytes: most });
  const chunks: Buffer[] = [];
  // Hashed as it comes: a whole picture at once would hold the server's loop.
  const hash = createHash('sha256');
  let size = 0;
  for await (const chunk of request) {
    if (!Buffer.isBuffer(chunk)) continue;
    size += chunk.byteLength;
    if (size > most) throw new DomainError('file-too-large', { bytes: most });
    chunks.push(chunk);
    hash.update(chunk);
  }
  return { bytes: Buffer.concat(chunks, size), hash: hash.digest('hex') };
}
