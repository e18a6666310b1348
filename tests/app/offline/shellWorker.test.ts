import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { serverMark } from '#lib/contract/wire';
import { createShellWorker, type Shell } from '#app/offline/shellWorker';

const origin = 'http://localhost:3000';
const shell: Shell = { build: 'one', pages: ['/', '/score'], assets: ['/_next/static/chunks/a.js', '/icon.svg'] };
const pathOf = (asked: RequestInfo | URL) => new URL(asked instanceof Request ? asked.url : asked, origin).pathname;

/** The browser's caches as far as the worker uses them; what is added comes from `server`. */
function browser(server: (path: string) => Promise<Response>) {
  const stored = new Map<string, Map<string, Response>>();
  const open = async (name: string) => {
    const held = stored.get(name) ?? new Map<string, Response>();
    stored.set(name, held);
    return {
      put: async (path: string, answer: Response) => void held.set(path, answer),
      match: async (path: string) => held.get(path)?.clone(),
    } as unknown as Cache;
  };
  const caches = { open, keys: async () => [...stored.keys()], delete: async (name: string) => stored.delete(name) };
  return {
    stored,
    world: { origin, caches, fetch: (request: Request) => server(pathOf(request.url)), patienceMs: 1500 },
  };
}

const asks = (path: string, change: { mode?: string; method?: string } = {}) =>
  ({ url: new URL(path, origin).href, method: 'GET', mode: 'navigate', ...change }) as Request;
const ours = (words: string, status = 200) =>
  new Response(words, { status, headers: { [serverMark.name]: serverMark.value } });
const saying = (words: string) => async () => ours(words);
const bodyOf = async (answer: Promise<Response> | null) => (await answer)?.text();

beforeEach(() => {
  vi.useFakeTimers();
});

afterEach(() => {
  vi.useRealTimers();
});

describe('the worker that keeps the shell', () => {
  it('BL1: lets pass whatever is not a page or a file of the build, answers of the API above all', async () => {
    const worker = createShellWorker(shell, browser(saying('kept')).world);
    await worker.install();
    const passing = [
      asks('/api/trpc/card.mine?input=x', { mode: 'cors' }),
      asks('/api/trpc/card.submit', { mode: 'cors', method: 'POST' }),
      asks('/api/trpc/card.mine'),
      asks('/socket.io/?EIO=4', { mode: 'websocket' }),
      asks('/score?id=1', { method: 'POST' }),
      asks('/score?_rsc=1', { mode: 'cors' }),
      asks('https://elsewhere.example/score'),
      asks('/_next/static/chunks/unknown.js', { mode: 'no-cors' }),
      asks('/no-such-page'),
    ];
    expect(passing.map((one) => worker.answer(one))).toEqual(passing.map(() => null));
  });

  it('LV1: a page comes from the server while it answers, however old the kept one is', async () => {
    let words = 'old';
    const { world } = browser(async () => ours(words));
    const worker = createShellWorker(shell, world);
    await worker.install();
    words = 'new';
    expect(await bodyOf(worker.answer(asks('/score?id=1')))).toBe('new');
  });

  it('LV1: a page comes from the device, whatever its query, when the server is gone, silent or broken', async () => {
    let server: (path: string) => Promise<Response> = saying('kept');
    const { world } = browser((path) => server(path));
    const worker = createShellWorker(shell, world);
    await worker.install();
    const gone = async () => {
      throw new TypeError('refused');
    };
    for (const fault of [
      gone,
      () => new Promise<Response>(() => undefined),
      async () => ours('broken', 502),
      async () => new Response('bad gateway', { status: 502 }),
      async () => new Response('<h1>Welcome, guest</h1>'),
    ]) {
      server = fault;
      const body = bodyOf(worker.answer(asks('/score?id=1&show=card')));
      await vi.advanceTimersByTimeAsync(1500);
      expect(await body).toBe('kept');
    }
  });

  it('LV1: what is not kept waits for the server as long as it takes', async () => {
    let arrive: (response: Response) => void = () => undefined;
    const { world } = browser(() => new Promise<Response>((resolve) => (arrive = resolve)));
    const body = bodyOf(createShellWorker(shell, world).answer(asks('/score')));
    await vi.advanceTimersByTimeAsync(5000);
    arrive(ours('late'));
    expect(await body).toBe('late');
  });

  it('LV2: with nothing kept, a stranger’s page is shown as it is: it may be the way into the network', async () => {
    const { world } = browser(async () => new Response('<h1>Welcome, guest</h1>'));
    expect(await bodyOf(createShellWorker(shell, world).answer(asks('/score')))).toBe('<h1>Welcome, guest</h1>');
  });

  it('LV1: files of the build come from the device, and a build replaces the one before it, whole or not at all', async () => {
    let server: (path: string) => Promise<Response> = saying('first');
    const { world, stored } = browser((path) => server(path));
    await createShellWorker(shell, world).install();
    const second = createShellWorker({ ...shell, build: 'two' }, world);
    server = async (path) => ours('second', path === '/icon.svg' ? 404 : 200);
    await expect(second.install()).rejects.toThrow();
    // A sign-in page that answers 200 to everything is not taken for the build, nor for one file of it.
    for (const foreign of [() => true, (path: string) => path === '/icon.svg', (path: string) => path === '/score']) {
      server = async (path) => (foreign(path) ? new Response('<h1>Welcome, guest</h1>') : ours('second'));
      await expect(second.install()).rejects.toThrow();
      expect([...(stored.get('evenstack-shell-two') ?? [])]).toEqual([]);
    }
    server = async () => {
      throw new TypeError('refused');
    };
    expect(
      await bodyOf(createShellWorker(shell, world).answer(asks('/_next/static/chunks/a.js', { mode: 'no-cors' }))),
    ).toBe('first');
    server = saying('second');
    await second.install();
    await second.activate();
    expect([...stored.keys()]).toEqual(['evenstack-shell-two']);
    expect(await bodyOf(second.answer(asks('/icon.svg', { mode: 'no-cors' })))).toBe('second');
  });
});
