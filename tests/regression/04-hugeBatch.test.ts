import { expect, it } from 'vitest';
import { startTestServer } from '#tests/support/startTestServer';

it('BL2: one request asks a hundred questions at the most, and a refused one answers none', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const ask = async (count: number) => {
    const paths = Array.from({ length: count }, () => 'session.me').join(',');
    const response = await fetch(`${server.url}/api/trpc/${paths}?batch=1`, { headers: { cookie: owner.cookie() } });
    return { status: response.status, body: await response.text() };
  };
  expect((await ask(100)).status).toBe(200);
  const refused = await ask(1000);
  expect(refused.status).toBe(400);
  expect(refused.body).toContain('"bad-input"');
  expect(refused.body).not.toContain('"asking"');
});
