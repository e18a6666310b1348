import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { serviceWorker } from '#server/pages/nextPages';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-worker-'));
});

afterEach(() => {
  rmSync(folder, { recursive: true });
});

async function asked(path: string, dev = false) {
  const worker = serviceWorker(folder, dev);
  const http = createServer((request, response) => {
    if (!worker(request, response)) response.writeHead(299).end();
  });
  await new Promise<void>((ready) => http.listen(0, '127.0.0.1', ready));
  const address = http.address();
  const answer = await fetch(`http://127.0.0.1:${typeof address === 'object' ? address?.port : ''}${path}`);
  const body = await answer.text();
  http.close();
  return {
    status: answer.status,
    body,
    kept: answer.headers.get('cache-control'),
    type: answer.headers.get('content-type'),
  };
}

it('LV1: there is no worker in development, nor before the pages are built', async () => {
  expect((await asked('/serviceWorker.js')).status).toBe(404);
  writeFileSync(join(folder, 'serviceWorker.js'), 'worker');
  expect((await asked('/serviceWorker.js', true)).status).toBe(404);
  expect((await asked('/score')).status).toBe(299);
});

it('LV1: the worker stands at the root and is asked for anew each time', async () => {
  writeFileSync(join(folder, 'serviceWorker.js'), 'worker');
  const expected = { status: 200, body: 'worker', kept: 'no-cache', type: 'text/javascript; charset=utf-8' };
  expect(await asked('/serviceWorker.js')).toEqual(expected);
  expect(await asked('/serviceWorker.js?again')).toEqual(expected);
});
