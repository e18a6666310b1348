import type { RequestListener } from 'node:http';
import { join } from 'node:path';
import next from 'next';
import { asksForPage } from './asksForPage';
import { serviceWorker } from './serviceWorker';

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
