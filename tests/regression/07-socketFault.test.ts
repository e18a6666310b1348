import { expect, it } from 'vitest';
import { startTestServer } from '#tests/support/startTestServer';

it('LV2: a data file that cannot be read while a socket asks to open costs that socket, never the server', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const knock = () =>
    fetch(`${server.url}/socket.io/?EIO=4&transport=polling`, {
      headers: { origin: server.url, cookie: owner.cookie() },
      signal: AbortSignal.timeout(60_000),
    });
  expect((await knock()).status).toBe(200);
  server.runtime.db.$client.exec('ALTER TABLE device RENAME TO away');
  expect((await knock()).status).toBe(403);
  expect(server.logged.join('\n')).toMatch(/^socket: .*no such table: device/);
  expect(server.logged.join('\n')).not.toContain(owner.cookie().split('=')[1]);
  server.runtime.db.$client.exec('ALTER TABLE away RENAME TO device');
  expect((await owner.api.session.me.query()).owner).toBe(true);
});
