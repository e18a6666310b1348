import type { IncomingMessage } from 'node:http';
import { DomainError } from '#lib/errors';

/** A request's bytes, at most `most` of them. Throws file-too-large, by the announced length where there is one. */
export async function readBody(request: IncomingMessage, most: number): Promise<Buffer> {
  if (Number(request.headers['content-length'] ?? 0) > most) throw new DomainError('file-too-large', { bytes: most });
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request) {
    if (!Buffer.isBuffer(chunk)) continue;
    size += chunk.byteLength;
    if (size > most) throw new DomainError('file-too-large', { bytes: most });
    chunks.push(chunk);
  }
  return Buffer.concat(chunks, size);
}
