import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test, type BrowserContext, type Page } from '@playwright/test';
import { systemRandom } from '#server/random';
import { axeFaults } from '#tests/support/axeFaults';
import { startFaultProxy } from '#tests/support/faultProxy';
import { fullSize } from '#tests/support/faultSize';
import { holdTime, timed } from '#tests/support/latency';
import { lockCard } from '#tests/support/lockCard';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Seeding } from '#tests/support/seedQuillmarsh';
import { lockCard as lockInBrowser, scorePuppy } from '#tests/support/scoreInBrowser';
import { closePages, sessionPage } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';
import { testClient, type TestClient } from '#tests/support/testClient';

const phone = { width: 390, height: 844 };
/** 20 in an ordinary run, 200 in the long one. */
const tabKills = Number(process.env['TAB_KILLS'] ?? 20);
const seed = Number(process.env['TAB_KILLS_SEED'] ?? Date.now() % 1_000_000);

// Where times are held to their bounds, a trace of hundreds of presses would be measured with them.
if (fullSize) test.use({ trace: 'off' });

let data: string;
let app: App;
let owner: TestClient;

test.beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'evenstack-offline-'));
  app = await startApp({ data });
  owner = await app.owner();
});

test.afterEach(closePages);

test.afterAll(async () => {
  await app[Symbol.asyncDispose]();
  rmSync(data, { recursive: true, force: true });
});

type Table = { readonly id: string; readonly links: Readonly<Record<string, string>> };

async function opened(seeding: Seeding): Promise<Table> {
  const { id, links } = await seedQuillmarsh(owner, { puppies: 3, sheet: 'short', join: false, ...seeding });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  return { id, links };
}

/** The seat's link, led through a proxy. */
const through = (url: string, link: string | undefined) => `${url}/join${new URL(link ?? '').hash}`;

async function sitDown(page: Page, link: string): Promise<void> {
  await page.goto(link);
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await page.getByRole('button', { name: 'Start scoring' }).click();
  await expect(page.getByRole('heading', { name: 'Body length to height' })).toBeVisible();
}

/** Until this browser holds the pages' shell. */
const holdsShell = (page: Page) => page.waitForFunction(() => navigator.serviceWorker.controller !== null);

/** A page opened anew stands at the first open question; what was said of the first one is a step back. */
async function expectSaid(page: Page, key: string): Promise<void> {
  await page.getByRole('button', { name: 'Back', exact: true }).click();
  await expect(page.getByRole('button', { name: key })).toHaveAttribute('aria-pressed', 'true');
}

/** What the server holds of this browser's seat, read with its own session, past any proxy. */
async function onServer(
  context: BrowserContext,
  id: string,
): Promise<
  readonly { readonly subject: string; readonly field: string; readonly counter: number; readonly said: unknown }[]
> {
  const [cookie] = await context.cookies(app.url);
  const mine = await testClient(app.url, `${cookie?.name}=${cookie?.value}`).api.card.mine.query({ id });
  return mine.answers.map(({ subject, field, counter, body }) => ({
    subject,
    field,
    counter,
    said: 'value' in body ? body.value : body,
  }));
}

const allSaved = (page: Page) => page.getByText(/^(1 answer|all \d+) on the server$/);

/** Milliseconds until something is so; the full-size run holds them to `atMost`. */
async function within(atMost: number, what: string, work: () => Promise<unknown>): Promise<number> {
  const took = await timed(work);
  holdTime(what, took, atMost);
  return Math.round(took);
}

const note = (words: string) => console.log(`    ${words}`);

test('SC1, SC2: a whole sheet for ten puppies, scored by keyboard without a link, is on the server once there is a link', async ({
  browser,
}) => {
  const { id, links } = await openedForTen();
  await using proxy = await startFaultProxy(app.url);
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await sitDown(page, through(proxy.url, links['co-owner']));
  proxy.set({ kind: 'hole' });
  await page.getByRole('group', { name: 'Body length to height' }).focus();
  let presses = 0;
  const press = async (key: string) => {
    presses += 1;
    await page.keyboard.press(key);
  };
  const done = page.getByRole('heading', { name: /^Everything about/ });
  for (let puppy = 1; puppy <= 10; puppy += 1) {
    for (let question = 0; question < 60 && !(await done.isVisible()); question += 1) {
      await press('1');
      await press('Enter');
    }
    if (puppy === 10) break;
    // The way on takes no press in the first moment after it has come up, however it is pressed.
    const goOn = async () => {
      await press('Enter');
      return done.isVisible();
    };
    await expect.poll(goOn).toBe(false);
  }
  const waiting = Number(
    /^(\d+) only on this computer/.exec(await page.getByText(/^\d+ only on this computer$/).innerText())?.[1],
  );
  expect(await onServer(context, id)).toEqual([]);
  proxy.set({ kind: 'none' });
  const took = await within(5000, 'a whole sheet sent', () => page.getByText(`all ${waiting} on the server`).waitFor());
  const held = await onServer(context, id);
  expect(held).toHaveLength(waiting);
  const scores = held.filter(({ field }) => field.startsWith('score:'));
  expect(scores).toHaveLength(22 * 10);
  expect(new Set(scores.map(({ said }) => said))).toEqual(new Set([1]));
  note(`${waiting} answers by ${presses} keys without a link; all on the server ${took} ms after it`);
  await context.close();
});

async function openedForTen(): Promise<Table> {
  const { id, links } = await seedQuillmarsh(owner, { puppies: 9, sheet: 'full', medium: 'photographs', join: false });
  const { litterId, ...setup } = await owner.api.setup.get.query({ id });
  const tenth = { name: 'Clover', sex: 'bitch', collar: 'grey', secondMark: 'none', chipDigits: '' } as const;
  await owner.api.litter.savePuppy.mutate({ litterId, puppyId: null, puppy: tenth });
  expect(setup.puppies).toHaveLength(9);
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  return { id, links };
}

test('LV2, LV1: a dead link shows, when idle and after a tap; the tap counts once', async ({ browser }) => {
  const { id, links } = await opened({});
  await using quiet = await startFaultProxy(app.url);
  await using deaf = await startFaultProxy(app.url);
  const [idle, busy] = await Promise.all([
    browser.newContext({ viewport: phone }),
    browser.newContext({ viewport: phone }),
  ]);
  const [idlePage, busyPage] = [await idle.newPage(), await busy.newPage()];
  await sitDown(idlePage, through(quiet.url, links['photographer']));
  await sitDown(busyPage, through(deaf.url, links['mentor']));
  await busyPage.getByRole('button', { name: 'too long, 1 slight' }).click();
  await expect(allSaved(busyPage)).toBeVisible();
  quiet.set({ kind: 'hole' });
  const noticed = within(10_000, 'a dead link shown when idle', () =>
    idlePage
      .getByText(/no link since \d\d:\d\d/)
      .first()
      .waitFor(),
  );
  // The server hears this tap; the telephone does not hear the answer.
  deaf.set({ kind: 'half-open' });
  await busyPage.getByRole('button', { name: 'too long, 2 clear' }).click();
  const said = await within(3500, 'a dead link shown after a tap', () =>
    busyPage
      .getByText(/no (answer|link) since \d\d:\d\d/)
      .first()
      .waitFor(),
  );
  await expect(busyPage.getByText('1 only on this phone')).toBeVisible();
  await expect(busyPage.getByText(/not confirmed, only on this device so far/)).toBeVisible();
  expect(await onServer(busy, id)).toMatchObject([{ said: 2, counter: 2 }]);
  note(`dead link shown ${await noticed} ms after it when idle, ${said} ms after a tap`);
  quiet.set({ kind: 'none' });
  deaf.set({ kind: 'none' });
  const back = await within(5000, 'confirmed after the link', () => allSaved(busyPage).waitFor());
  await expect(idlePage.getByText(/no link since/)).toHaveCount(0);
  expect(await onServer(busy, id)).toMatchObject([{ said: 2, counter: 2 }]);
  note(`confirmed ${back} ms after the link`);
  await Promise.all([idle.close(), busy.close()]);
});

test('LV1: two tabs of one seat end with the newest edit, and the history holds both', async ({ browser }) => {
  const { id, links } = await opened({});
  await using proxy = await startFaultProxy(app.url);
  const context = await browser.newContext({ viewport: phone });
  const first = await context.newPage();
  await sitDown(first, through(proxy.url, links['mentor']));
  const second = await context.newPage();
  await second.goto(`${proxy.url}/score?id=${id}`);
  await second.getByRole('button', { name: 'Start scoring' }).click();
  proxy.set({ kind: 'cut' });
  await first.getByRole('button', { name: 'too long, 1 slight' }).click();
  await expect(second.getByRole('button', { name: 'too long, 1 slight' })).toHaveAttribute('aria-pressed', 'true');
  await second.getByRole('button', { name: 'too short, 3 marked' }).click();
  await expect(first.getByRole('button', { name: 'too short, 3 marked' })).toHaveAttribute('aria-pressed', 'true');
  proxy.set({ kind: 'none' });
  for (const page of [first, second]) await expect(allSaved(page)).toBeVisible();
  expect(await onServer(context, id)).toMatchObject([{ said: -3, counter: 2 }]);
  for (const page of [first, second]) {
    await page.reload();
    await expectSaid(page, 'too short, 3 marked');
  }
  await context.close();
});

test('SC2: a tab killed a tenth of a second after a tap, without a link, has lost nothing', async ({
  playwright,
}, info) => {
  test.setTimeout(900_000 + tabKills * 8000);
  const { id, links } = await opened({ sheet: 'full', puppies: 9, medium: 'photographs' });
  await using proxy = await startFaultProxy(app.url);
  const profile = mkdtempSync(join(tmpdir(), 'evenstack-profile-'));
  const context = await playwright.chromium.launchPersistentContext(profile, {
    ...info.project.use.launchOptions,
    headless: true,
    viewport: phone,
  });
  note(`TAB_KILLS_SEED=${seed}`);
  const random = seeded(seed);
  let page = await context.newPage();
  await sitDown(page, through(proxy.url, links['photographer']));
  await holdsShell(page);
  proxy.set({ kind: 'cut' });
  let puppy = 0;
  for (let kill = 0; kill < tabKills; kill += 1) {
    puppy = await turnToOpenQuestion(page, puppy);
    await answerKeys(page)
      .nth(Math.floor(random() * 3))
      .click();
    await page.waitForTimeout(100 + random() * 100);
    page = await killed(context, page, `${proxy.url}/score?id=${id}`);
    await expect(page.getByText(`${kill + 1} only on this phone`)).toBeVisible();
  }
  proxy.set({ kind: 'none' });
  await expect(page.getByText(`all ${tabKills} on the server`)).toBeVisible();
  expect(await onServer(context, id)).toHaveLength(tabKills);
  await context.close();
  rmSync(profile, { recursive: true, force: true });
});

const answerKeys = (page: Page) => page.getByRole('region', { name: 'Answer' }).locator('[data-key]');

/** A page opened anew stands at its first puppy; where nothing is open about that one, on to the next. Returns which it is. */
async function turnToOpenQuestion(page: Page, from: number): Promise<number> {
  for (let puppy = from; puppy < 9; puppy += 1) {
    if (puppy > 0) {
      await page.getByRole('button', { name: 'List', exact: true }).click();
      await page
        .getByRole('dialog')
        .getByRole('region', { name: 'Puppies' })
        .getByRole('listitem')
        .nth(puppy)
        .getByRole('button')
        .click();
    }
    await answerKeys(page).first().waitFor();
    if ((await page.locator('[data-key][aria-pressed=true]').count()) === 0) return puppy;
  }
  throw new Error('nothing is open any more');
}

/** Ends the tab's process, as a telephone short of memory does: no handler of the page runs. Then the page is opened anew. */
async function killed(context: BrowserContext, page: Page, url: string): Promise<Page> {
  const session = await context.newCDPSession(page);
  const gone = page.waitForEvent('crash');
  void session.send('Page.crash').catch(() => undefined);
  await gone;
  await page.close();
  const again = await context.newPage();
  await again.goto(url);
  return again;
}

/** A small source of repeatable chance (mulberry32). */
function seeded(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

test('LV1, LV2: scoring opens cold while the server is stopped, from the shell and the seat’s own data alone', async ({
  browser,
}) => {
  const { id, links } = await opened({});
  const context = await browser.newContext({ viewport: phone });
  const page = await context.newPage();
  await sitDown(page, links['mentor'] ?? '');
  await page.getByRole('button', { name: 'too long, 2 clear' }).click();
  await expect(allSaved(page)).toBeVisible();
  await holdsShell(page);
  await expect.poll(() => keptReads(page)).toEqual([id]);
  await page.close();
  await app[Symbol.asyncDispose]();
  const cold = await context.newPage();
  const took = await within(2000, 'usable without a server', async () => {
    await cold.goto(`${app.url}/score?id=${id}`);
    await cold.getByRole('heading', { name: 'Topline and loin', exact: true }).waitFor();
  });
  await expectSaid(cold, 'too long, 2 clear');
  await cold.getByRole('button', { name: 'too short, 1 slight' }).click();
  await expect(cold.getByText('1 only on this phone')).toBeVisible();
  await expect(cold.getByText(/no link since \d\d:\d\d/).first()).toBeVisible();
  expect(await cachedPaths(cold)).not.toContainEqual(expect.stringMatching(/^\/api|^\/socket\.io|_rsc/));
  app = await startApp({ data, port: Number(new URL(app.url).port) });
  const back = await within(10_000, 'confirmed after the server’s start', () => allSaved(cold).waitFor());
  expect(await onServer(context, id)).toMatchObject([{ said: -1 }]);
  note(`usable ${took} ms after opening without a server; confirmed ${back} ms after its start`);
  await context.close();
});

const cachedPaths = (page: Page) =>
  page.evaluate(async () => {
    const caches_ = await Promise.all((await caches.keys()).map((name) => caches.open(name)));
    return (await Promise.all(caches_.map((cache) => cache.keys())))
      .flat()
      .map(({ url }) => `${new URL(url).pathname}${new URL(url).search}`);
  });

/** Everything in this browser's databases, by database and store. */
const stored = (page: Page) =>
  page.evaluate(async () => {
    const names = (await indexedDB.databases()).flatMap(({ name }) => name ?? []);
    const found: [string, unknown[]][] = [];
    for (const name of names) {
      const database = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open(name);
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(new Error(name));
      });
      for (const store of database.objectStoreNames) {
        const rows = await new Promise<unknown[]>((resolve, reject) => {
          const request = database.transaction(store).objectStore(store).getAll();
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(new Error(store));
        });
        found.push([`${name} ${store}`, rows]);
      }
      database.close();
    }
    return found;
  });

const keptReads = async (page: Page) =>
  (await stored(page)).find(([name]) => name === 'evenstack reads')?.[1].map((read) => (read as { id: string }).id);

test('BL1, LV2: signing out says what would be lost and leaves nothing of the seat in this browser', async ({
  browser,
}) => {
  const { id, links } = await opened({});
  await using proxy = await startFaultProxy(app.url);
  const context = await browser.newContext({ viewport: phone });
  const page = await context.newPage();
  await sitDown(page, through(proxy.url, links['mentor']));
  await page.getByRole('button', { name: 'too long, 2 clear' }).click();
  await expect(allSaved(page)).toBeVisible();
  await holdsShell(page);
  proxy.set({ kind: 'cut' });
  await page.getByRole('button', { name: 'too long, 3 marked' }).click();
  await expect(page.getByText('1 only on this phone')).toBeVisible();
  await expect
    .poll(async () => (await stored(page)).map(([name, rows]) => `${name}: ${rows.length}`))
    .toEqual(expect.arrayContaining(['evenstack outbox: 2', 'evenstack reads: 1']));
  await page.goto(`${proxy.url}/`);
  await page.getByRole('button', { name: 'Sign out of this browser' }).click();
  await expect(
    page.getByText(/^1 entry is only on this device\. Signed out it cannot send them: they would be lost/),
  ).toBeVisible();
  proxy.set({ kind: 'none' });
  const other = await context.newPage();
  await other.goto(`${proxy.url}/score?id=${id}`);
  await expect(other.getByRole('heading', { name: 'Topline and loin', exact: true })).toBeVisible();
  await page.getByRole('button', { name: 'Sign out now' }).click();
  for (const one of [page, other]) await expect(one.getByRole('heading', { name: 'You need a link' })).toBeVisible();
  const left = await stored(page);
  expect(left.map(([name]) => name)).toEqual(expect.arrayContaining(['evenstack outbox', 'evenstack reads']));
  expect(left.flatMap(([, rows]) => rows)).toEqual([]);
  expect(await page.evaluate(() => [localStorage.length, sessionStorage.length])).toEqual([0, 0]);
  expect(await cachedPaths(page)).not.toContainEqual(expect.stringMatching(/api|socket|\?/));
  await context.close();
});

test('BL1: what a device keeps for opening without the server is gone once the round is revealed', async ({
  browser,
}) => {
  const { id, links } = await opened({});
  const context = await browser.newContext({ viewport: phone });
  const page = await context.newPage();
  await sitDown(page, links['mentor'] ?? '');
  await page.getByRole('button', { name: 'too long, 2 clear' }).click();
  await expect.poll(() => keptReads(page)).toEqual([id]);
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  await expect(page.getByRole('link', { name: 'To the board' })).toBeVisible();
  await expect.poll(() => keptReads(page)).toEqual([]);
  await context.close();
});

test('LV2, SC2: at a plain http address the page says what it cannot do, and keeps and sends all the same while open', async ({
  playwright,
}, info) => {
  const { id, links } = await opened({});
  await using proxy = await startFaultProxy(app.url);
  const { args = [], ...options } = info.project.use.launchOptions ?? {};
  // A name that is not this machine's own: the browser treats it as any address in the barn.
  const browser = await playwright.chromium.launch({
    ...options,
    args: [...args, '--host-resolver-rules=MAP barn.test 127.0.0.1'],
  });
  const context = await browser.newContext({ viewport: phone });
  const page = await context.newPage();
  const barn = proxy.url.replace(/(?<=:\/\/)[^:/]+/, 'barn.test');
  await page.goto(through(barn, links['mentor']));
  expect(await page.evaluate(() => window.isSecureContext)).toBe(false);
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await expect(
    page.getByText('Keep this page open while there is no link: here it cannot be loaded anew without one.'),
  ).toBeVisible();
  await expect(page.getByText('The screen may go to sleep while you score')).toBeVisible();
  await page.getByRole('button', { name: 'Start scoring' }).click();
  proxy.set({ kind: 'cut' });
  await page.getByRole('button', { name: 'too long, 2 clear' }).click();
  await expect(page.getByText('1 only on this phone')).toBeVisible();
  proxy.set({ kind: 'none' });
  await expect(allSaved(page)).toBeVisible();
  const view = await owner.api.evaluation.get.query({ id });
  expect(view.seats.find((seat) => seat.label === 'mentor')?.state).toBe('joined');
  await browser.close();
});

test('SC1, SC2, LV2: on a device whose every write takes five seconds scoring goes on, nothing opens again, all arrives and the lock is taken', async ({
  browser,
}) => {
  const { id, links } = await opened({});
  const context = await browser.newContext({ viewport: phone });
  await context.addInitScript(() => {
    const listen = Reflect.get<IDBTransaction, 'addEventListener'>(IDBTransaction.prototype, 'addEventListener');
    IDBTransaction.prototype.addEventListener = function (
      this: IDBTransaction,
      type: string,
      listener: EventListener,
      options?: AddEventListenerOptions,
    ) {
      const starved = type === 'complete' && this.mode === 'readwrite';
      listen.call(
        this,
        type,
        starved ? (event: Event) => void setTimeout(() => listener(event), 5000) : listener,
        options,
      );
    };
  });
  const page = await context.newPage();
  await sitDown(page, links['mentor'] ?? '');
  const opensAgain: string[] = [];
  const keyOf = (question: string) => {
    opensAgain.push(question);
    return '4';
  };
  await scorePuppy(page, 'Fern', keyOf);
  expect(new Set(opensAgain).size).toBe(opensAgain.length);
  await expect(allSaved(page)).toBeVisible();
  const held = await onServer(context, id);
  const said = Number(/\d+/.exec(await allSaved(page).innerText())?.[0]);
  expect(held).toHaveLength(said);
  expect(new Set(held.map(({ counter }) => counter))).toEqual(new Set([1]));
  await expect(page.getByText(/another device/)).toHaveCount(0);
  await page.getByRole('button', { name: 'List', exact: true }).click();
  await page.getByRole('button', { name: 'Your card: what is open, your choice, lock' }).click();
  await expect(page.getByText('everything answered')).toHaveCount(1);
  await lockInBrowser(page);
  await expect
    .poll(
      async () => (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.state,
    )
    .toBe('locked');
  await context.close();
});

test('SC6, LV2: answers that a restored server lacks are sent again by the page that had sent them, and the record counts them', async ({
  browser,
}) => {
  const { id, links } = await opened({});
  const context = await browser.newContext({ viewport: phone });
  const page = await context.newPage();
  await sitDown(page, links['mentor'] ?? '');
  const port = Number(new URL(app.url).port);
  const backup = join(data, 'earlier.db');
  const answer = async () => {
    await answerKeys(page).first().click();
    await page.getByRole('button', { name: /^Next: / }).click();
  };
  await answer();
  await expect(page.getByText('1 answer on the server')).toBeVisible();
  await app[Symbol.asyncDispose]();
  copyFileSync(join(data, 'evenstack.db'), backup);
  app = await startApp({ data, port });
  for (let more = 0; more < 3; more += 1) await answer();
  await expect(page.getByText('all 4 on the server')).toBeVisible();
  await app[Symbol.asyncDispose]();
  execFileSync(
    process.execPath,
    [fileURLToPath(new URL('../../server/cli/run.mjs', import.meta.url)), 'restore', backup],
    { env: { ...process.env, EVENSTACK_DATA: data } },
  );
  app = await startApp({ data, port });
  await expect.poll(async () => (await onServer(context, id)).length).toBe(4);
  await expect(page.getByText('all 4 on the server')).toBeVisible();
  expect((await owner.api.record.list.query({ id })).map(({ kind, detail }) => `${kind}: ${detail}`)).toContain(
    'entries-sent-again: 3',
  );
  await context.close();
});

test('BL7, BL8: second looks that a restore brought back closed say so to a seat, take no answer, and are shown as they stand', async ({
  browser,
}) => {
  const quillmarsh = await seedQuillmarsh(owner, { puppies: 2 });
  await playToReveal(quillmarsh);
  const { id, seats } = quillmarsh;
  const { puppies, slots } = await owner.api.evaluation.get.query({ id });
  const [firstPuppyId = '', secondPuppyId = ''] = puppies.map((puppy) => puppy.id);
  const { id: batchId, lookIds } = await owner.api.look.open.mutate({
    id,
    slotId: slots[0]?.id ?? '',
    medium: 'table',
    pairs: [{ firstPuppyId, secondPuppyId }],
  });
  await owner.api.look.answer.mutate({
    id,
    answer: { id: systemRandom.id(), lookId: lookIds[0] ?? '', choice: 'first', criterion: null, madeAt: 1 },
  });
  const page = await sessionPage(browser, seats['mentor']);
  await page.goto(`${app.url}/look?id=${id}`);
  await expect(page.getByText('I cannot separate them', { exact: true })).toBeVisible();
  const port = Number(new URL(app.url).port);
  const backup = join(data, 'with-looks.db');
  await app[Symbol.asyncDispose]();
  // Nobody can say what had been shown when the file that the backup replaces is gone.
  renameSync(join(data, 'evenstack.db'), backup);
  execFileSync(
    process.execPath,
    [fileURLToPath(new URL('../../server/cli/run.mjs', import.meta.url)), 'restore', backup],
    { env: { ...process.env, EVENSTACK_DATA: data } },
  );
  app = await startApp({ data, port });
  await expect(
    page.getByText(
      'A backup was restored, and these looks came back closed: they may have been shown before. Nobody answers them any more.',
    ),
  ).toBeVisible();
  await expect(page.getByText('I cannot separate them', { exact: true })).toHaveCount(0);
  await expect(page.getByRole('button', { name: 'Show the answers' })).toHaveCount(0);
  expect(await axeFaults(page)).toEqual([]);
  await owner.api.look.close.mutate({ id, batchId });
  await expect(page.getByText(/these looks came back closed/)).toHaveCount(0);
  await expect(page.getByText('Second look at Fern and Moss: 1 for Fern.')).toBeVisible();
  await page.context().close();
});
