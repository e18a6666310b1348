import { existsSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join } from 'node:path';

/** At the root, so that it may answer for every page. */
const path = '/serviceWorker.js';

/**
 * Serves the worker that keeps the pages' shell on a device; true when the request was for it. It is asked for anew each
 * time, so that a build replaces the one before. In development there is none: it would keep what is being written.
 */
export function serviceWorker(buildFolder: string, dev: boolean): (request: IncomingMessage, response: ServerResponse) => boolean {
  const file = join(buildFolder, 'serviceWorker.js');
  const script = !dev && existsSync(file) ? readFileSync(file) : null;
  return (request, response) => {
    if (request.url?.split('?')[0] !== path) return false;
    if (script === null) response.writeHead(404).end();
    else {
      response.writeHead(200, { 'Content-Type': 'text/javascript; charset=utf-8', 'Content-Length': script.byteLength, 'Cache-Control': 'no-cache' });
      response.end(request.method === 'HEAD' ? undefined : script);
    }
    return true;
  };
}
