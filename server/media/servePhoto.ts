import { createReadStream, statSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join } from 'node:path';
import { pipeline } from 'node:stream';
import { findPhoto } from '#db/queries/photos';
import { picturesFolder } from '#db/picturesFolder';
import type { Device } from '#db/queries/devices';
import { DomainError } from '#lib/errors';
import { accessTo } from '../api/access';
import type { Runtime } from '../runtime';

type PhotoSize = 'large' | 'small';

type Asked = { readonly runtime: Runtime; readonly device: Device; readonly photoId: string; readonly size: PhotoSize };
type Exchange = { readonly request: IncomingMessage; readonly response: ServerResponse };

/**
 * One file to a member of the picture's evaluation; to anyone else it is not there. Bytes never change under an address, so
 * a browser may keep them for itself. Clips answer ranges, which is how players seek.
 */
export function servePhoto({ request, response }: Exchange, { runtime, device, photoId, size }: Asked): void {
  const photo = findPhoto(runtime.db, photoId);
  if (!photo || photo.removedAt !== null) throw new DomainError('not-found');
  accessTo({ runtime, device }, photo.evaluationId);
  const small = size === 'small' ? photo.thumb : null;
  const path = join(picturesFolder(runtime.db), small ?? photo.file);
  const length = lengthOf(path);
  const range = rangeOf(request.headers.range, length);
  response.setHeader('Content-Type', photo.contentType);
  response.setHeader('Content-Disposition', `inline; filename="${photo.kind}.${photo.contentType.split('/')[1]}"`);
  response.setHeader('Cache-Control', 'private, max-age=86400, immutable');
  response.setHeader('Vary', 'Cookie');
  response.setHeader('Accept-Ranges', 'bytes');
  if (range === 'unsatisfiable') {
    response.setHeader('Content-Range', `bytes */${length}`);
    response.writeHead(416).end();
    return;
  }
  const { from, to } = range ?? { from: 0, to: length - 1 };
  if (range) response.setHeader('Content-Range', `bytes ${from}-${to}/${length}`);
  response.setHeader('Content-Length', to - from + 1);
  response.writeHead(range ? 206 : 200);
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  // A viewer who leaves in the middle is no fault; the connection is closed either way.
  pipeline(createReadStream(path, { start: from, end: to }), response, () => undefined);
}

function lengthOf(path: string): number {
  try {
    return statSync(path).size;
  } catch {
    throw new DomainError('not-found');
  }
}

/** A single byte range (RFC 9110, 14.1.2); anything else is answered whole. */
function rangeOf(
  header: string | undefined,
  length: number,
): { readonly from: number; readonly to: number } | 'unsatisfiable' | null {
  const [, first, last] = /^bytes=(\d*)-(\d*)$/.exec(header ?? '') ?? [];
  if (first === undefined || last === undefined || (first === '' && last === '')) return null;
  const from = first === '' ? Math.max(0, length - Number(last)) : Number(first);
  const to = first === '' || last === '' ? length - 1 : Math.min(Number(last), length - 1);
  return from > to || from >= length ? 'unsatisfiable' : { from, to };
}
