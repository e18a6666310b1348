import type { RequestListener } from 'node:http';
import next from 'next';

/** The built pages, or in development the pages as they are written. */
export async function nextPages(folder: string, dev: boolean): Promise<RequestListener> {
  const app = next({ dir: folder, dev, quiet: true });
  await app.prepare();
  const handle = app.getRequestHandler();
  return (request, response) => {
    void handle(request, response);
  };
}
