import type { RequestListener } from 'node:http';
import next from 'next';
import { asksForPage } from './asksForPage';

/** The built pages, or in development the pages as they are written, with what their tools ask for. */
export async function nextPages(folder: string, dev: boolean): Promise<RequestListener> {
  const app = next({ dir: folder, dev, quiet: true });
  await app.prepare();
  const handle = app.getRequestHandler();
  return (request, response) => {
    if (!dev && !asksForPage(request)) {
      response.writeHead(405, { Allow: 'GET, HEAD' }).end();
      return;
    }
    // A page that fails must not end the process: whoever asked loses this one answer.
    handle(request, response).catch(() => response.destroy());
  };
}
