import { io } from 'socket.io-client';
import { expect, it } from 'vitest';
import { startTestServer } from '#tests/support/startTestServer';

it('BL3: answers of the socket’s address carry the same protections as every other answer', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const elsewhere = await fetch(`${server.url}/api/trpc/session.me`);
  const [hello, refused, broken] = await Promise.all([
    fetch(`${server.url}/socket.io/?EIO=4&transport=polling`, {
      headers: { origin: server.url, cookie: owner.cookie() },
    }),
    fetch(`${server.url}/socket.io/?EIO=4&transport=polling`, { headers: { cookie: owner.cookie() } }),
    fetch(`${server.url}/socket.io/?EIO=4&transport=none`, { headers: { origin: server.url, cookie: owner.cookie() } }),
  ]);
  expect([hello.status, refused.status, broken.status]).toEqual([200, 403, 400]);
  for (const name of [
    'content-security-policy',
    'x-content-type-options',
    'referrer-policy',
    'cross-origin-resource-policy',
  ]) {
    const expected = elsewhere.headers.get(name);
    expect(expected).not.toBeNull();
    expect([hello, refused, broken].map((answer) => [name, answer.headers.get(name)])).toEqual(
      [1, 2, 3].map(() => [name, expected]),
    );
  }
});

it('BL3: a socket that says what no client of ours says is no more than ignored', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const socket = io(server.url, {
    transports: ['websocket'],
    extraHeaders: { cookie: owner.cookie(), origin: server.url },
  });
  await new Promise<void>((ready) => socket.on('connect', () => ready()));
  for (const name of ['error', 'changed', 'disconnecting', '__proto__'])
    socket.io.engine.write(`42${JSON.stringify([name, { a: 1 }])}`);
  socket.io.engine.write('4/admin,0');
  socket.io.engine.write('451-["changed",{"_placeholder":true,"num":9}]');
  await new Promise((wait) => setTimeout(wait, 200));
  expect((await owner.api.session.me.query()).owner).toBe(true);
  socket.close();
});
