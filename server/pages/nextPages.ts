import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { IncomingMessage, RequestListener, ServerResponse } from 'node:http';
import { join } from 'node:path';
import next from 'next';

/** The built pages, or in development the pages as they are written, with what their tools ask for. */
export async function nextPages(folder: string, dev: boolean): Promise<RequestListener> {
  const app = next({ dir: folder, dev, quiet: true });
  await app.prepare();
  const handle = app.getRequestHandler();
  const worker = serviceWorker(join(folder, '.next'), dev);
  return (request, response) => {
    if (!dev && !asksForPage(request)) {
      response.writeHead(405, { Allow: 'GET, HEAD' }).end();
      return;
    }
    if (worker(request, response)) return;
    // A page is asked for anew each time, or a device would go on with the shell of an earlier build.
    if (!dev && request.url?.startsWith('/_next/') !== true) response.setHeader('Cache-Control', 'no-cache');
    // A page that fails must not end the process: whoever asked loses this one answer.
    handle(request, response).catch(() => response.destroy());
  };
}

/**
 * Whether a request is one that a page or its files can answer: read by path. Anything else is some program's, and would
 * only be parsed and complained about: pages take no form and no action, and this server is nobody's proxy.
 */
export function asksForPage({ method, url }: Pick<IncomingMessage, 'method' | 'url'>): boolean {
  return (method === 'GET' || method === 'HEAD') && url?.startsWith('/') === true;
}

/**
 * CSP sources for every inline script of the built pages, so that no 'unsafe-inline' is needed. The hashes change with
 * every build and are read at start. Pages are static, so there is nothing else inline.
 */
export function inlineScripts(buildFolder: string): string {
  const pages = join(buildFolder, 'server', 'app');
  const hashes = new Set<string>();
  for (const file of readdirSync(pages, { recursive: true, encoding: 'utf8' })) {
    if (!file.endsWith('.html')) continue;
    for (const [, body] of readFileSync(join(pages, file), 'utf8').matchAll(
      /<script(?![^>]*\bsrc=)[^>]*>([\s\S]*?)<\/script>/g,
    )) {
      hashes.add(
        createHash('sha256')
          .update(body ?? '')
          .digest('base64'),
      );
    }
  }
  return [...hashes].map((hash) => ` 'sha256-${hash}'`).join('');
}

/** At the root, so that it may answer for every page. */
const path = '/serviceWorker.js';

/**
 * Serves the worker that keeps the pages' shell on a device; true when the request was for it. It is asked for anew each
 * time, so that a build replaces the one before. In development there is none: it would keep what is being written.
 */
export function serviceWorker(
  buildFolder: string,
  dev: boolean,
): (request: IncomingMessage, response: ServerResponse) => boolean {
  const file = join(buildFolder, 'serviceWorker.js');
  const script = !dev && existsSync(file) ? readFileSync(file) : null;
  return (request, response) => {
    if (request.url?.split('?')[0] !== path) return false;
    if (script === null) response.writeHead(404).end();
    else {
      response.writeHead(200, {
        'Content-Type': 'text/javascript; charset=utf-8',
        'Content-Length': script.byteLength,
        'Cache-Control': 'no-cache',
      });
      response.end(request.method === 'HEAD' ? undefined : script);
    }
    return true;
  };
}
