import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test, type BrowserContext, type Page } from '@playwright/test';
import { z } from 'zod';
import type { EntryBody } from '#lib/contract/entry';
import { systemRandom } from '#server/random';
import { fullSize } from '#tests/support/faultSize';
import { lockCard } from '#tests/support/lockCard';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { closePages } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';
import type { TestClient } from '#tests/support/testClient';

const build = fileURLToPath(new URL('../../.next/', import.meta.url));
const routes = Object.values(
  z.record(z.string(), z.string()).parse(JSON.parse(readFileSync(`${build}app-path-routes-manifest.json`, 'utf8'))),
).toSorted();
const pages = routes.filter((route) => !route.startsWith('/_') && !route.includes('.'));

/** Each seat's words occur nowhere else. The second set is written while the others' pages are open. */
const words = {
  breeder: ['quince-breeder', 'medlar-breeder'],
  mentor: ['quince-mentor', 'medlar-mentor'],
  photographer: ['quince-photographer', 'medlar-photographer'],
  'co-owner': ['quince-coowner', 'medlar-coowner'],
} as const;
type Label = keyof typeof words;
const labels: readonly Label[] = ['breeder', 'mentor', 'photographer', 'co-owner'];
const viewers: readonly (Label | 'stranger')[] = [...labels, 'stranger'];
const othersOf = (viewer: string): string[] =>
  labels.filter((label) => label !== viewer).flatMap((label) => [...words[label]]);

let app: App;
let quillmarsh: Quillmarsh;

const clientOf = (label: string): TestClient | undefined =>
  label === 'breeder' ? quillmarsh.owner : quillmarsh.seats[label];
const cookieOf = (viewer: string): string => clientOf(viewer)?.cookie() ?? '';

async function plant(label: Label, word: string, counter: number): Promise<void> {
  const client = clientOf(label);
  const view = await client?.api.evaluation.get.query({ id: quillmarsh.id });
  const showing = view?.round?.showings[0]?.id ?? '';
  const bodies: [string, EntryBody][] = [
    [showing, { kind: 'note', criterion: null, text: word }],
    [showing, { kind: 'fair', fair: false, why: word }],
    [showing, { kind: 'check', check: 'breathing', answer: 'quiet', detail: word }],
    [view?.slots[0]?.id ?? '', { kind: 'choice', puppy: view?.puppies[0]?.id ?? null, reason: word, chance: 50 }],
  ];
  const outcomes = await client?.api.card.submit.mutate({
    id: quillmarsh.id,
    entries: bodies.map(([subject, body]) => ({ id: systemRandom.id(), subject, counter, madeAt: 1, body })),
  });
  expect(outcomes?.map((outcome) => outcome.status)).toEqual(bodies.map(() => 'applied'));
}

test.beforeAll(async () => {
  app = await startApp();
  quillmarsh = await seedQuillmarsh(await app.owner(), { puppies: 2 });
  await quillmarsh.owner.api.evaluation.openRound.mutate({ id: quillmarsh.id });
  for (const label of labels) await plant(label, words[label][0], 1);
});

test.afterEach(closePages);

test.afterAll(async () => {
  await app[Symbol.asyncDispose]();
});

/** As a browser asks: for the page, for its payload, and for what a link prefetches. */
const askings: readonly Record<string, string>[] = [
  {},
  { rsc: '1' },
  { rsc: '1', 'next-router-prefetch': '1' },
  { rsc: '1', 'next-router-prefetch': '1', 'next-router-segment-prefetch': '/_tree' },
];

test('BL1: no route of the build tells any viewer of another seat’s card, as page, payload or prefetch', async () => {
  expect(pages).toEqual(
    expect.arrayContaining(['/', '/board', '/decide', '/import', '/look', '/record', '/score', '/setup']),
  );
  for (const viewer of viewers) {
    for (const route of routes) {
      for (const headers of askings) {
        const answer = await fetch(`${app.url}${route}?id=${quillmarsh.id}`, {
          headers: { ...headers, cookie: cookieOf(viewer) },
        });
        const told = JSON.stringify([...answer.headers]) + (await answer.text());
        expect([viewer, route, headers, othersOf(viewer).filter((word) => told.includes(word))]).toEqual([
          viewer,
          route,
          headers,
          [],
        ]);
        // Pages hold no data at all, not even the viewer's own.
        expect(labels.filter((label) => told.includes(words[label][0]))).toEqual([]);
      }
    }
  }
});

test('BL3: every route answers with the same protections, whether it is there or not', async () => {
  const chunk = readdirSync(`${build}static/chunks`).find((name) => name.endsWith('.js')) ?? '';
  const others = [
    '/nothing/here',
    '/%E0%A4%A',
    '/%00',
    '/api',
    '/api/nothing',
    '/api/trpc/nothing',
    '/api/trpc/session.me',
    '/socket.io/',
    `/_next/static/chunks/${chunk}`,
  ];
  for (const path of [...routes, ...others]) {
    for (const method of ['GET', 'HEAD', 'OPTIONS', 'POST']) {
      const { headers, status } = await fetch(`${app.url}${path}`, { method, redirect: 'manual' });
      const policy = headers.get('content-security-policy') ?? '';
      const scripts = /script-src ([^;]*)/.exec(policy)?.[1] ?? '';
      expect([path, method, scripts.includes("'self'"), /unsafe|\*|https?:/.test(scripts)]).toEqual([
        path,
        method,
        true,
        false,
      ]);
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).toContain("object-src 'none'");
      expect([path, method, headers.get('x-content-type-options'), headers.get('referrer-policy')]).toEqual([
        path,
        method,
        'nosniff',
        'no-referrer',
      ]);
      expect([path, method, headers.get('x-powered-by'), headers.get('access-control-allow-origin')]).toEqual([
        path,
        method,
        null,
        null,
      ]);
      expect([path, method, status !== 500 || path === '/_global-error']).toEqual([path, method, true]);
    }
  }
});

test('BL1: nothing outside the built pages is served: no source, no source map, no data file', async () => {
  const maps = readdirSync(`${build}static`, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.map'),
  );
  expect(maps).toEqual([]);
  const paths = [
    '/package.json',
    '/dist/main.js',
    '/dist/main.js.map',
    '/data/evenstack.db',
    '/_next/BUILD_ID',
    '/_next/server/app/index.html',
    '/_next/static/..%2f..%2fpackage.json',
    '/_next/static/%2e%2e/%2e%2e/package.json',
    '/..%5c..%5cpackage.json',
    '/.next/BUILD_ID',
    '/_next/static/..%2fBUILD_ID',
  ];
  for (const path of paths) {
    const answer = await fetch(`${app.url}${path}`);
    expect([path, answer.status]).toEqual([path, 404]);
  }
});

type Heard = { readonly frames: string[]; readonly answers: Promise<string>[]; readonly complaints: string[] };

function listen(page: Page): Heard {
  const heard: Heard = { frames: [], answers: [], complaints: [] };
  page.on('websocket', (socket) => socket.on('framereceived', ({ payload }) => heard.frames.push(payload.toString())));
  // A body that a navigation threw away was never seen by the page either.
  page.on('response', (response) => heard.answers.push(response.text().catch(() => '')));
  page.on(
    'console',
    (message) => message.text().includes('Content Security Policy') && heard.complaints.push(message.text()),
  );
  return heard;
}

/** All that this origin keeps on the device: databases, storage, caches. */
const kept = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(new Error('the database does not answer'));
      });
    const rows: unknown[] = [];
    for (const { name } of await indexedDB.databases()) {
      const database = await asked(indexedDB.open(name ?? ''));
      for (const store of database.objectStoreNames)
        rows.push(await asked(database.transaction(store).objectStore(store).getAll()));
      database.close();
    }
    const cached = typeof caches === 'undefined' ? [] : await caches.keys();
    return JSON.stringify([rows, { ...localStorage }, { ...sessionStorage }, document.cookie, cached]);
  });

async function signIn(context: BrowserContext, viewer: string): Promise<void> {
  const [name, value] = cookieOf(viewer).split('=');
  if (name && value) await context.addCookies([{ name, value, url: app.url, httpOnly: true, sameSite: 'Lax' }]);
}

/** Every page once, until nothing more comes: in three tabs, since most of it is waiting. Answers what the pages showed. */
async function visitPages(context: BrowserContext, heard: Heard): Promise<string[]> {
  const lanes = [0, 1, 2].map(async (lane) => {
    const page = await context.newPage();
    const own = listen(page);
    const seen: string[] = [];
    for (const route of pages.filter((_, at) => at % 3 === lane)) {
      await page.goto(`${app.url}${route}?id=${quillmarsh.id}`, { waitUntil: 'networkidle' });
      seen.push(await page.content());
    }
    heard.frames.push(...own.frames);
    heard.answers.push(...own.answers);
    heard.complaints.push(...own.complaints);
    await page.close();
    return seen;
  });
  return (await Promise.all(lanes)).flat();
}

/** Rises with every planting, over all the tests below. */
let counter = 1;

/** What pages draw and keep comes from answers, which are searched for every viewer elsewhere: here one with words of its own and one with none, all in check:long. */
const watched = fullSize ? viewers : (['mentor', 'stranger'] as const);

for (const viewer of watched) {
  test(`BL1: in a real browser no page, answer, socket frame or store of the ${viewer} holds another seat’s words before reveal`, async ({
    browser,
  }) => {
    const context = await browser.newContext();
    await signIn(context, viewer);
    const page = await context.newPage();
    const heard = listen(page);
    const seen = await visitPages(context, heard);
    // The others write and the table moves while this viewer's page is open and its socket listens.
    await page.goto(`${app.url}/score?id=${quillmarsh.id}`, { waitUntil: 'networkidle' });
    const before = heard.frames.length;
    counter += 1;
    for (const label of labels.filter((one) => one !== viewer)) await plant(label, words[label][1], counter);
    const { round } = await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id });
    await quillmarsh.owner.api.evaluation.moveTable.mutate({
      id: quillmarsh.id,
      showingId: round?.showings[counter % 2]?.id ?? '',
    });
    if (viewer !== 'stranger')
      await expect
        .poll(() => heard.frames.slice(before).filter((frame) => frame.includes('"changed"')).length)
        .toBeGreaterThan(0);
    await page.waitForLoadState('networkidle');
    seen.push(await page.content(), await kept(page));
    const everything = [...seen, ...heard.frames, ...(await Promise.all(heard.answers))].join('\n');
    expect([viewer, othersOf(viewer).filter((word) => everything.includes(word))]).toEqual([viewer, []]);
    expect([
      viewer,
      labels.filter(
        (label) => label === viewer && !everything.includes(words[label][0]) && !everything.includes(words[label][1]),
      ),
    ]).toEqual([viewer, []]);
    expect(heard.complaints).toEqual([]);
    await context.close();
    expect(app.printed.join('')).not.toMatch(/quince|medlar/);
  });
}

test('BL1: the words were there to be found: after reveal the board shows every seat’s', async () => {
  const { id, owner } = quillmarsh;
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  const board = JSON.stringify(await quillmarsh.seats['photographer']?.api.board.get.query({ id }));
  for (const label of labels) expect(board).toContain(words[label][1]);
});
