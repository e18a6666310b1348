import { createTRPCClient, httpBatchLink, type TRPCClient } from '@trpc/client';
import type { AppRouter } from '#server/api/router';

export type TestClient = {
  readonly url: string;
  readonly api: TRPCClient<AppRouter>;
  /** The session as the browser keeps it: `name=secret`, empty before joining. */
  cookie(): string;
  /** Everything the server ever answered this client, bodies and headers. */
  readonly received: string[];
};

/** A browser's side of the API over real HTTP: keeps its cookie (or starts with a browser's own), sends its Origin. */
export function testClient(url: string, session = ''): TestClient {
  let cookie = session;
  const received: string[] = [];
  const api = createTRPCClient<AppRouter>({
    links: [
      httpBatchLink({
        url: `${url}/api/trpc`,
        fetch: async (input, init) => {
          const headers = new Headers(init?.headers);
          headers.set('origin', url);
          if (cookie !== '') headers.set('cookie', cookie);
          const response = await fetch(input, { method: init?.method ?? 'GET', body: init?.body ?? null, headers });
          const given = response.headers.getSetCookie()[0]?.split(';')[0];
          if (given !== undefined) cookie = given.endsWith('=') ? '' : given;
          const body = await response.text();
          received.push(JSON.stringify([...response.headers.entries()]), body);
          return new Response(body, { status: response.status, headers: response.headers });
        },
      }),
    ],
  });
  return { url, api, cookie: () => cookie, received };
}
