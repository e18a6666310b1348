import { createTRPCClient, httpBatchLink } from '@trpc/client';
import { createServer, type RequestListener } from 'node:http';
import { expect, it } from 'vitest';
import { fetchInTime } from '#app/_data/fetchInTime';
import { refusalText } from '#app/_data/refusalText';
import { serverMark } from '#lib/contract/wire';
import type { AppRouter } from '#server/api/router';

/** A page's client, and whoever answers it over real HTTP. */
async function asking(listener: RequestListener) {
  const http = createServer(listener);
  await new Promise<void>((ready) => http.listen(0, '127.0.0.1', ready));
  const address = http.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  const soon = {
    fetch: (input: RequestInfo | URL | string, init: RequestInit) => fetch(input, init),
    answerWithinMs: 300,
  };
  const client = createTRPCClient<AppRouter>({
    links: [
      httpBatchLink({
        url: `http://127.0.0.1:${port}/api/trpc`,
        fetch: (input, init) => fetchInTime(input, init, soon),
      }),
    ],
  });
  return {
    client,
    [Symbol.asyncDispose]: async () => {
      http.closeAllConnections();
      await new Promise((closed) => http.close(closed));
    },
  };
}

const done = '[{"result":{"data":{"done":true}}}]';
const refused = '[{"error":{"message":"not-allowed","code":-32003,"data":{"code":"not-allowed"}}}]';
const strangers: [string, RequestListener][] = [
  [
    'a page with status 200',
    (_, response) => void response.setHeader('content-type', 'text/html').end('<h1>Welcome, guest</h1>'),
  ],
  ['an empty 200', (_, response) => void response.end()],
  [
    'a 200 that looks like an answer',
    (_, response) => void response.setHeader('content-type', 'application/json').end(done),
  ],
  [
    'a refusal that looks like ours',
    (_, response) => void response.writeHead(403, { 'content-type': 'application/json' }).end(refused),
  ],
  ['a page with status 502', (_, response) => void response.writeHead(502).end('<h1>Bad gateway</h1>')],
  ['another mark', (_, response) => void response.setHeader(serverMark.name, 'theirs').end(done)],
];

it.each(strangers)(
  'LV2: %s is no answer and no refusal: reading and changing say that another answered',
  async (_, listener) => {
    await using one = await asking(listener);
    const read = await one.client.session.me.query().then(
      (data) => data,
      (error: unknown) => ({ error }),
    );
    const changed = await one.client.session.leave.mutate().then(
      (data) => data,
      (error: unknown) => ({ error }),
    );
    for (const answer of [read, changed]) {
      expect(answer).toHaveProperty('error.data', undefined);
      expect('error' in answer && refusalText(answer.error)).toMatch(/something else answered/);
    }
  },
);

it('LV2: the server’s own answers, data and refusals, are read as ever', async () => {
  await using good = await asking(
    (_, response) => void response.setHeader(serverMark.name, serverMark.value).end(done),
  );
  await expect(good.client.session.leave.mutate()).resolves.toEqual({ done: true });
  await using no = await asking(
    (_, response) => void response.setHeader(serverMark.name, serverMark.value).writeHead(403).end(refused),
  );
  await expect(no.client.session.leave.mutate()).rejects.toMatchObject({ data: { code: 'not-allowed' } });
});

it.each<[string, RequestListener]>([
  ['says nothing', () => undefined],
  [
    'stops in the middle of an answer',
    (_, response) => void response.writeHead(200, { [serverMark.name]: serverMark.value }).write('[{"result":'),
  ],
])('LV2: reads and changes end when the other side %s, and say so', async (_, listener) => {
  await using silent = await asking(listener);
  for (const call of [
    () => silent.client.session.me.query(),
    () => silent.client.evaluation.moveTable.mutate({ id: 'a'.repeat(32), showingId: 'b'.repeat(32) }),
  ]) {
    const words = await call().then(() => 'done', refusalText);
    expect(words).toMatch(/did not answer in time/);
  }
});

it('LV2: what a stranger told the browser to keep is never read in the place of an answer', async () => {
  const asked: RequestInit[] = [];
  const ways = {
    answerWithinMs: 300,
    fetch: async (_: RequestInfo | URL | string, init: RequestInit) => {
      asked.push(init);
      return new Response(done, { headers: { [serverMark.name]: serverMark.value } });
    },
  };
  await fetchInTime('http://here/api/trpc/session.me', {}, ways);
  expect(asked.map(({ cache }) => cache)).toEqual(['no-store']);
});
