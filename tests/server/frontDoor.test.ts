import { hostname, networkInterfaces } from 'node:os';
import { connect } from 'node:net';
import { request } from 'node:http';
import { io } from 'socket.io-client';
import { expect, it } from 'vitest';
import { serverMark } from '#lib/contract/wire';
import { createTRPCClient, httpBatchLink } from '@trpc/client';
import { fetchInTime } from '#app/_data/fetchInTime';
import { refusalText } from '#app/_data/refusalText';
import type { AppRouter } from '#server/api/router';
import { knownHosts } from '#server/knownHosts';
import { startTestServer, type TestServer } from '../support/startTestServer';

type Asked = {
  readonly host: string;
  readonly path?: string;
  readonly method?: string;
  readonly origin?: string;
  readonly body?: string;
};
type Told = { readonly status: number; readonly body: string; readonly marked: boolean };

/** fetch does not let a caller choose the Host header. */
function ask(
  { url }: Pick<TestServer, 'url'>,
  { host, path = '/', method = 'GET', origin, body }: Asked,
): Promise<Told> {
  const { port } = new URL(url);
  return new Promise((resolve, reject) => {
    const headers = {
      host,
      ...(origin === undefined ? {} : { origin }),
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    };
    const call = request({ host: '127.0.0.1', port, path, method, headers }, (answer) => {
      let text = '';
      answer.setEncoding('utf8').on('data', (part: string) => (text += part));
      answer.on('end', () =>
        resolve({
          status: answer.statusCode ?? 0,
          body: text,
          marked: answer.headers[serverMark.name] === serverMark.value,
        }),
      );
    });
    call.on('error', reject).end(body);
  });
}

/** What a page would tell a person, had it made this call from that origin. */
async function wordsFor({ url }: TestServer, headers: Readonly<Record<string, string>>, name = 'x'): Promise<string> {
  const client = createTRPCClient<AppRouter>({
    links: [httpBatchLink({ url: `${url}/api/trpc`, headers, fetch: fetchInTime })],
  });
  return client.session.signIn.mutate({ passphrase: name }).then(() => 'done', refusalText);
}

it('BL1: a name that is none of ours gets no page, no call and no socket, in plain words', async () => {
  await using server = await startTestServer();
  const { port } = new URL(server.url);
  const host = `evil.example:${port}`;
  const page = await ask(server, { host });
  expect(page).toMatchObject({ status: 421, marked: true });
  expect(page.body).toContain('evil.example');
  expect(page.body).toContain('EVENSTACK_HOSTS');
  for (const asked of [
    { path: '/api/trpc/session.me' },
    { path: '/api/photo/x/large' },
    { path: '/api/trpc/session.leave', method: 'POST', origin: `http://${host}`, body: '{}' },
  ]) {
    const told = await ask(server, { host, ...asked });
    expect(told.status).toBe(421);
    expect(JSON.parse(told.body)).toMatchObject({ error: { code: -32003, data: { code: 'unknown-host' } } });
  }
  const polled = await ask(server, { host, path: '/socket.io/?EIO=4&transport=polling', origin: `http://${host}` });
  expect(polled.status).toBe(403);
  const owner = await server.owner();
  const extraHeaders = { host, origin: `http://${host}`, cookie: owner.cookie() };
  const socket = io(server.url, { transports: ['websocket'], extraHeaders, reconnection: false });
  await expect(
    new Promise((resolve) => socket.on('connect', () => resolve('in')).on('connect_error', () => resolve('refused'))),
  ).resolves.toBe('refused');
  socket.close();
  expect(server.logged.some((line) => line.includes('unknown-host') && line.includes('evil.example'))).toBe(true);
  expect(server.logged.join('\n')).not.toContain(owner.cookie().split('=')[1]);
});

it('BL1: without any Host there is no answer but the refusal', async () => {
  await using server = await startTestServer();
  const told = await new Promise<string>((resolve) => {
    const socket = connect(Number(new URL(server.url).port), '127.0.0.1', () => socket.write('GET / HTTP/1.0\r\n\r\n'));
    let text = '';
    socket
      .setEncoding('utf8')
      .on('data', (part: string) => (text += part))
      .on('close', () => resolve(text));
  });
  expect(told).toContain('421');
});

it('BL1: this machine answers to its own names and addresses, as telephones and tests call it', async () => {
  await using server = await startTestServer();
  const own = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  const names = [
    'localhost',
    'LOCALHOST',
    '127.0.0.1',
    '127.0.0.2',
    '[::1]',
    hostname(),
    `${hostname().split('.')[0]}.local`,
    ...own.map(({ address, family }) => (family === 'IPv6' ? `[${address.split('%')[0]}]` : address)),
  ];
  for (const name of names)
    expect([name, (await ask(server, { host: `${name}:3000`, path: '/api/trpc/session.me' })).status]).toEqual([
      name,
      200,
    ]);
  for (const name of [
    'localhost.evil.example',
    `${hostname()}.evil.example`,
    '127.0.0.1.evil.example',
    '10.255.254.253',
    '[2001:db8::1]',
    'evil.example',
    'localhost@evil.example',
  ])
    expect([name, (await ask(server, { host: name, path: '/api/trpc/session.me' })).status]).toEqual([name, 421]);
});

it('BL1: addresses of the machine are read as they change; configured and certified names count as ours', () => {
  let now = 0;
  let address = '192.168.7.1';
  const known = knownHosts({
    names: ['panel.example', '*.club.example'],
    addresses: () => [address],
    machine: 'shed.lan',
    now: () => now,
  });
  expect(
    ['192.168.7.1', 'shed', 'shed.local', 'panel.example', 'a.club.example'].map((name) => known(`${name}:3000`)),
  ).toEqual([true, true, true, true, true]);
  expect(['192.168.7.2', 'club.example', 'a.b.club.example', 'x.panel.example'].map((name) => known(name))).toEqual([
    false,
    false,
    false,
    false,
  ]);
  address = '192.168.7.2';
  expect([undefined, '', ':3000', 'a b', '[', '127.0.0.1.'].map(known)).toEqual([
    false,
    false,
    false,
    false,
    false,
    true,
  ]);
  now += 10_000;
  expect([known('192.168.7.2'), known('192.168.7.1')]).toEqual([true, false]);
});

it('LV2: a call from a foreign page says what it is, on the page and in the log, without its query or keys', async () => {
  await using server = await startTestServer();
  const words = await wordsFor(server, { origin: 'http://elsewhere.example' });
  expect(words).toMatch(/another address/);
  const line = server.logged.find((one) => one.includes('foreign-page'));
  expect(line).toContain('/api/trpc');
  expect(line).not.toContain('signIn');
  expect(line).not.toContain('127.0.0.1 ');
});

it('LV2: what is too large for one call is called that, and logged', async () => {
  await using server = await startTestServer();
  expect(await wordsFor(server, { origin: server.url }, 'x'.repeat(600_000))).toMatch(/too large/i);
  expect(server.logged.some((line) => line.includes('too-large'))).toBe(true);
});

it('LV2: a server that is being stopped says so to a call that comes late on an open connection', async () => {
  const server = await startTestServer();
  const { hostname: host, port } = new URL(server.url);
  // One connection with a request under way, so that the stop has something to wait for.
  const socket = connect(Number(port), host);
  let text = '';
  socket
    .setEncoding('utf8')
    .on('data', (part: string) => (text += part))
    .on('error', () => undefined);
  const closed = new Promise((resolve) => socket.on('close', resolve));
  const say = (words: string) => socket.write(words);
  say(
    `POST /api/trpc/session.signIn HTTP/1.1\r\nHost: ${host}:${port}\r\nOrigin: ${server.url}\r\nContent-Type: application/json\r\nContent-Length: 19\r\n\r\n`,
  );
  await new Promise((resolve) => setTimeout(resolve, 50));
  const stopped = server[Symbol.asyncDispose]();
  say(`{"passphrase":"no"}GET /api/trpc/session.me HTTP/1.1\r\nHost: ${host}:${port}\r\n\r\n`);
  await Promise.all([stopped, closed]);
  expect(text).toMatch(/"code":"stopping"/);
  expect(text).toContain('503');
  expect(refusalText({ data: { code: 'stopping' } })).toMatch(/being stopped/);
});

it('LV2: every answer of ours bears the mark by which a page tells it from a stranger’s', async () => {
  await using server = await startTestServer();
  for (const path of [
    '/',
    '/api/trpc/session.me',
    '/api/photo/x/small',
    '/api/none',
    '/socket.io/?EIO=4&transport=polling',
  ])
    expect([path, (await ask(server, { host: 'localhost', path })).marked]).toEqual([path, true]);
});
