import type { IncomingMessage, ServerResponse } from 'node:http';

/**
 * Answers whoever watches over the process, a proxy or a container's keeper: `/healthz`, it runs; `/readyz`, it reads its
 * data and no failing disk has ended its writing, else 503. A disk that is merely full is not told here. Nothing else is told. True when the request was one of these.
 */
export function answersProbe(
  { url, method }: IncomingMessage,
  response: ServerResponse,
  ready: () => boolean,
): boolean {
  if ((method !== 'GET' && method !== 'HEAD') || (url !== '/healthz' && url !== '/readyz')) return false;
  const well = url === '/healthz' || isReady(ready);
  response
    .writeHead(well ? 200 : 503, { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' })
    .end(well ? 'ok\n' : 'not ready\n');
  return true;
}

function isReady(ready: () => boolean): boolean {
  try {
    return ready();
  } catch {
    // A data file that cannot be read is the very thing asked about.
    return false;
  }
}
