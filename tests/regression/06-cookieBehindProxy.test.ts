import { expect, it } from 'vitest';
import { createServer } from '#server/createServer';
import { examineFile } from '#server/carry/examineFile';
import { takeIn } from '#server/media/takeIn';
import { makeOwnerLink } from '#server/commands/owner';
import { systemRandom } from '#server/random';
import { startTestServer } from '#tests/support/startTestServer';

/** Behind a proxy that ends TLS the server itself speaks plain http: what people use is the configured origin. */
it.each([
  ['https://barn.example', true],
  ['http://barn.example', false],
])('BL9: with the origin %s the session cookie is marked secure: %s', async (origin, secure) => {
  await using inner = await startTestServer();
  const { runtime } = inner;
  const { http } = createServer({
    tenancy: { runtimeFor: () => runtime, close: () => Promise.resolve() },
    pages: (_, response) => response.writeHead(404).end(),
    scripts: '',
    cookieName: 'evenstack',
    tls: null,
    origin,
    intake: takeIn,
    examine: async (file) => examineFile(file),
    requestId: systemRandom.id,
    log: () => undefined,
  });
  await new Promise<void>((ready) => http.listen(0, '127.0.0.1', ready));
  const address = http.address();
  if (typeof address !== 'object' || address === null) throw new Error('no address');
  const answer = await fetch(`http://127.0.0.1:${address.port}/api/trpc/session.join`, {
    method: 'POST',
    headers: { origin, 'content-type': 'application/json' },
    body: JSON.stringify({ token: makeOwnerLink(runtime) }),
  });
  http.closeAllConnections();
  await new Promise((closed) => http.close(closed));
  const [cookie = ''] = answer.headers.getSetCookie();
  expect(answer.status).toBe(200);
  // The owner's: 180 days at the most, and the server ends it when it is not used (lib/access/sessionLife).
  expect(cookie).toMatch(/; HttpOnly; SameSite=Lax; Max-Age=15552000(;|$)/);
  expect(cookie.endsWith('; Secure')).toBe(secure);
  expect(answer.headers.has('strict-transport-security')).toBe(secure);
});
