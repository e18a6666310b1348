import { createServer } from 'node:http';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { expect, it } from 'vitest';
import { answersProbe } from '#server/probes';
import { startTestServer } from '../support/startTestServer';

it('SC1: who watches over the process is told whether it runs and whether it can write, and nothing else', async () => {
  let ready = () => true;
  const server = createServer((request, response) => {
    if (!answersProbe(request, response, () => ready())) response.writeHead(404).end();
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  const asked = async (path: string, method = 'GET') => {
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, { method });
    return [answer.status, await answer.text()];
  };
  expect([await asked('/healthz'), await asked('/readyz')]).toEqual([
    [200, 'ok\n'],
    [200, 'ok\n'],
  ]);
  ready = () => false;
  expect([await asked('/healthz'), await asked('/readyz')]).toEqual([
    [200, 'ok\n'],
    [503, 'not ready\n'],
  ]);
  ready = () => {
    throw new Error('disk');
  };
  expect(await asked('/readyz')).toEqual([503, 'not ready\n']);
  expect(
    [await asked('/readyz', 'POST'), await asked('/readyz/more'), await asked('/readyz?x=1')].map(([status]) => status),
  ).toEqual([404, 404, 404]);
  server.close();
});

it('BL1: a probe passes the front door like everything else', async () => {
  await using server = await startTestServer();
  const answer = await fetch(`${server.url}/readyz`);
  expect([answer.status, answer.headers.get('x-content-type-options')]).toEqual([200, 'nosniff']);
});
