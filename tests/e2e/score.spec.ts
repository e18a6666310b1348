import { expect, test, type Browser, type BrowserContext, type Page } from '@playwright/test';
import { protocolHeader, protocolVersion } from '#lib/contract/wire';
import { lockCard } from '#tests/support/lockCard';
import { seedQuillmarsh, type Quillmarsh, type Seeding } from '#tests/support/seedQuillmarsh';
import { startApp, type App } from '#tests/support/startApp';
import { testClient, type TestClient } from '#tests/support/testClient';
import { axeFaultsInBothThemes } from '#tests/support/axeFaults';
import { closePages, desk, phone } from '#tests/support/sessionPage';

const smallPhone = { width: 360, height: 740 };

let app: App;
let owner: TestClient;

test.beforeAll(async () => {
  app = await startApp();
  owner = await app.owner();
});

test.afterEach(closePages);

test.afterAll(async () => {
  await app[Symbol.asyncDispose]();
});

type Device = { readonly context: BrowserContext; readonly page: Page; readonly faults: readonly string[] };
type Screen = { readonly viewport?: { readonly width: number; readonly height: number } };

async function device(browser: Browser, { viewport = phone }: Screen = {}): Promise<Device> {
  const context = await browser.newContext({ viewport });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  return { context, page, faults };
}

async function opened(seeding: Seeding = {}): Promise<Quillmarsh> {
  const quillmarsh = await seedQuillmarsh(owner, { puppies: 3, sheet: 'short', join: false, ...seeding });
  await owner.api.evaluation.openRound.mutate({ id: quillmarsh.id, unconfirmed: true });
  return quillmarsh;
}

async function sitDown(page: Page, link: string | undefined): Promise<void> {
  await page.goto(link ?? '');
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await page.getByRole('button', { name: 'Start scoring' }).click();
  await expect(page.getByRole('heading', { name: 'Body length to height' })).toBeVisible();
}

/** What the server holds of this browser's seat, read with its own session. */
async function onServer(context: BrowserContext, id: string): Promise<ReadonlyMap<string, unknown>> {
  const [cookie] = await context.cookies(app.url);
  const mine = await testClient(app.url, `${cookie?.name}=${cookie?.value}`).api.card.mine.query({ id });
  return new Map(
    mine.answers.map((answer) => [
      `${answer.subject} ${answer.field}`,
      'value' in answer.body ? answer.body.value : answer.body,
    ]),
  );
}

async function showings(id: string): Promise<readonly string[]> {
  return (await owner.api.evaluation.get.query({ id })).round?.showings.map((showing) => showing.id) ?? [];
}

const next = (page: Page) => page.getByRole('button', { name: /^Next: / });
const allSaved = (page: Page, count: number) =>
  expect(page.getByText(count === 1 ? '1 answer on the server' : `all ${count} on the server`)).toBeVisible();

async function fromList(page: Page, name: RegExp): Promise<void> {
  await page.getByRole('button', { name: 'List', exact: true }).click();
  await page.getByRole('dialog').getByRole('button', { name }).first().click();
}

test('BL9: a link is not used up by loading, is used up by one press, and leaves the address', async ({ browser }) => {
  const { links } = await opened();
  const { page } = await device(browser);
  const link = links['mentor'] ?? '';
  await page.goto(link);
  await expect(page.getByRole('button', { name: 'Join on this device' })).toBeVisible();
  await page.reload();
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await page.waitForURL(/\/score\?id=/);
  await page.goBack();
  expect(page.url()).not.toContain('#');
  await page.goto(link);
  await expect(page.getByRole('heading', { name: 'This browser is the seat “mentor”' })).toBeVisible();
  const other = await device(browser);
  await other.page.goto(link);
  await other.page.getByRole('button', { name: 'Join on this device' }).click();
  await expect(other.page.getByText('This link has been used or replaced.')).toBeVisible();
});

test('SA1: what needs hands is not offered to a seat without', async ({ browser }) => {
  const { links } = await opened({ sheet: 'full' });
  for (const [label, count] of [
    ['mentor', 0],
    ['co-owner', 1],
  ] as const) {
    const { page } = await device(browser);
    await sitDown(page, links[label]);
    await page.getByRole('button', { name: 'List', exact: true }).click();
    for (const name of [/^Spring of rib/, /^Palate/])
      await expect(page.getByRole('dialog').getByRole('button', { name })).toHaveCount(count);
    await expect(page.getByRole('dialog').getByRole('button', { name: /^Bite/ })).toHaveCount(1);
  }
});

test('LV2: joining and the questions are accessible, light and dark', async ({ browser }) => {
  const { links } = await opened();
  const { page, faults } = await device(browser);
  await page.goto(links['co-owner'] ?? '');
  await expect(page.getByRole('button', { name: 'Join on this device' })).toBeVisible();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await page.getByRole('button', { name: 'Start scoring' }).waitFor();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  await page.getByRole('button', { name: 'Start scoring' }).click();
  for (const question of [/^Body length/, /^Shoulder layback/, /^Bite/, /^Manner and day/, /^Overall impression/]) {
    await fromList(page, question);
    await page.getByRole('group').last().getByRole('button').first().click();
    expect(await axeFaultsInBothThemes(page)).toEqual([]);
  }
  expect(faults).toEqual([]);
});

test('LV2: list, note, a puppy done, the desk and the card are accessible, light and dark', async ({ browser }) => {
  const { links } = await opened();
  const { page, faults } = await device(browser);
  await sitDown(page, links['co-owner']);
  for (const question of [/^Bite/, /^Overall impression/]) {
    await fromList(page, question);
    await page.getByRole('group').last().getByRole('button').first().click();
  }
  for (const way of ['List', 'Note']) {
    await page.getByRole('button', { name: way, exact: true }).click();
    expect(await axeFaultsInBothThemes(page)).toEqual([]);
    await page.getByRole('button', { name: 'Close' }).click();
  }
  await page.getByRole('button', { name: /^Done with/ }).click();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  await page.setViewportSize(desk);
  await expect(page.getByRole('complementary')).toBeVisible();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  await page.getByRole('button', { name: /^Your card: / }).click();
  await expect(page.getByRole('heading', { name: 'Your card' })).toBeVisible();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  expect(faults).toEqual([]);
});

test('LV2: on a small telephone every scoring key is at least 72 by 60, in the lower two thirds, 8 apart', async ({
  browser,
}) => {
  const { links } = await opened({ sheet: 'full' });
  const { page } = await device(browser, { viewport: smallPhone });
  await sitDown(page, links['co-owner']);
  for (const question of [/^Body length/, /^Shoulder layback/, /^Bite/, /^Manner and day/, /^Overall impression/]) {
    await fromList(page, question);
    const boxes = await page
      .getByRole('region', { name: 'Answer' })
      .locator('[data-key]')
      .evaluateAll((keys) => keys.map((key) => key.getBoundingClientRect().toJSON() as DOMRect));
    expect(boxes.length).toBeGreaterThan(3);
    for (const box of boxes) {
      expect(box.width).toBeGreaterThanOrEqual(72);
      expect(box.height).toBeGreaterThanOrEqual(60);
      expect(box.top).toBeGreaterThanOrEqual(smallPhone.height / 3);
      expect(box.bottom).toBeLessThanOrEqual(smallPhone.height);
    }
    for (const [index, box] of boxes.entries()) {
      const after = boxes[index + 1];
      if (after)
        expect(after.top === box.top ? after.left - box.right : after.top - box.bottom).toBeGreaterThanOrEqual(7.9);
    }
    for (const name of [/^(Next|Done)/, /^Back$/, /^Note$/]) {
      const box = await page.getByRole('button', { name }).boundingBox();
      expect(box?.y ?? 0).toBeGreaterThanOrEqual(smallPhone.height / 3);
      expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(smallPhone.height);
    }
  }
});

test('SC2: a two-sided score keeps its sign, and pressing the same key again clears it', async ({ browser }) => {
  const { id, links } = await opened();
  const { context, page } = await device(browser);
  await sitDown(page, links['mentor']);
  const [first] = await showings(id);
  const stored = async () => (await onServer(context, id)).get(`${first} score:body-length`);
  for (const [key, value] of [
    ['too long, 1 slight', 1],
    ['too short, 3 marked', -3],
    ['as asked', 0],
  ] as const) {
    await page.getByRole('button', { name: key }).click();
    await expect.poll(stored).toBe(value);
  }
  // Longer than a double tap, which takes nothing back.
  await page.waitForTimeout(700);
  await page.getByRole('button', { name: 'as asked' }).click();
  await expect.poll(stored).toBeNull();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(stored).toBe(0);
  // Where the system chooses the colours the ground of a chosen key is gone.
  await page.emulateMedia({ forcedColors: 'active' });
  await expect(page.getByRole('button', { name: 'as asked' })).toHaveCSS('outline-style', 'solid');
  await expect(page.getByRole('button', { name: 'too long, 1 slight' })).toHaveCSS('outline-style', 'none');
});

test('SC1, SC2, LV2: without a link for two puppies, nothing is lost and the screen says where everything is', async ({
  browser,
}) => {
  const { id, links } = await opened({ medium: 'photographs' });
  const { context, page, faults } = await device(browser);
  await sitDown(page, links['photographer']);
  await page.getByRole('button', { name: 'as asked' }).click();
  await allSaved(page, 1);
  await context.setOffline(true);
  for (let puppy = 0; puppy < 2; puppy += 1) {
    while (await next(page).isVisible()) {
      await page.getByRole('group').last().getByRole('button').first().click();
      await next(page).click();
    }
    await page.getByRole('group').last().getByRole('button').first().click();
    await page.getByRole('button', { name: /^Done with/ }).click();
    await page.getByRole('button', { name: /^Next puppy: / }).click();
  }
  const waiting = Number(
    /^(\d+) only on this phone/.exec(await page.getByText(/^\d+ only on this phone/).innerText())?.[1],
  );
  expect(waiting).toBeGreaterThan(20);
  await expect(page.getByText(/no (link|answer) since \d\d:\d\d/).first()).toBeVisible();
  expect((await onServer(context, id)).size).toBe(1);
  await context.setOffline(false);
  await expect(page.getByText(/^all \d+ on the server$/)).toBeVisible();
  const shown = Number(/\d+/.exec(await page.getByText(/^all \d+ on the server$/).innerText())?.[0]);
  expect((await onServer(context, id)).size).toBe(shown);
  expect(faults).toEqual([]);
});

test('SC2: a tab closed without a link keeps the tap, and sends it when reopened', async ({ browser }) => {
  const { id, links } = await opened();
  const { context, page } = await device(browser);
  await sitDown(page, links['mentor']);
  await context.setOffline(true);
  await page.getByRole('button', { name: 'too long, 2 clear' }).click();
  await expect(page.getByText('1 only on this phone')).toBeVisible();
  await page.waitForTimeout(300);
  await page.close();
  await context.setOffline(false);
  expect((await onServer(context, id)).size).toBe(0);
  const again = await context.newPage();
  await again.goto(`${app.url}/score?id=${id}`);
  await allSaved(again, 1);
  const [first] = await showings(id);
  expect((await onServer(context, id)).get(`${first} score:body-length`)).toBe(2);
});

/**
 * As if the server had been renewed since the page was loaded: to it the page says an earlier version than its own, and from it the page hears a
 * later one, until it has been loaded `loads` times more and then anew.
 */
async function renewServer(page: Page, loads = 0): Promise<void> {
  let loaded = 0;
  page.on('request', (request) => {
    if (request.isNavigationRequest()) loaded += 1;
  });
  await page.route('**/api/trpc/**', async (route) => {
    if (loaded > loads) return route.continue();
    const asked = route.request().headers();
    const answer = await route.fetch({
      headers: protocolHeader in asked ? { ...asked, [protocolHeader]: String(protocolVersion - 1) } : asked,
    });
    return route.fulfill({
      response: answer,
      headers: { ...answer.headers(), [protocolHeader]: String(protocolVersion + 1) },
    });
  });
}

test('LV2, SC6: a page from before the server was renewed says so and moves nothing; what is entered waits on the device, and the page loaded anew sends it', async ({
  browser,
}) => {
  const { id, links } = await opened();
  const { context, page, faults } = await device(browser);
  await sitDown(page, links['mentor']);
  const bar = page.getByRole('status', { name: 'Another version' });
  await expect(bar).toHaveCount(0);
  const key = page.getByRole('button', { name: 'too long, 2 clear' });
  const stood = await key.boundingBox();
  await renewServer(page);
  await key.click();
  await expect(bar).toBeVisible();
  expect(await key.boundingBox()).toEqual(stood);
  await expect(page.getByText('1 only on this phone')).toBeVisible();
  expect((await onServer(context, id)).size).toBe(0);
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  await bar.getByRole('button', { name: 'Later' }).click();
  await expect(bar).toHaveCount(0);
  await expect(page.getByText('1 only on this phone')).toBeVisible();

  await page.unrouteAll({ behavior: 'ignoreErrors' });
  await page.close();

  const tab = await context.newPage();
  await renewServer(tab, 1);
  await tab.goto(`${app.url}/score?id=${id}`);
  const again = tab.getByRole('status', { name: 'Another version' });
  await expect(tab.getByText('1 only on this phone')).toBeVisible();
  await again.getByRole('button', { name: 'Load the page anew' }).click();
  await allSaved(tab, 1);
  await expect(again).toHaveCount(0);
  const [first] = await showings(id);
  expect((await onServer(context, id)).get(`${first} score:body-length`)).toBe(2);
  expect(faults).toEqual([]);
});

test('LV2: a browser whose store fails says so, and sends all the same', async ({ browser }) => {
  const { id, links } = await opened();
  const { context, page } = await device(browser);
  await context.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('no store', 'UnknownError');
    };
  });
  await sitDown(page, links['mentor']);
  await context.setOffline(true);
  await page.getByRole('button', { name: 'too long, 2 clear' }).click();
  await page.getByRole('button', { name: /1 only in this page: keep it open/ }).click();
  await expect(page.getByText('This browser does not let the page write to the device')).toBeVisible();
  await page.getByRole('button', { name: 'Close' }).click();
  await context.setOffline(false);
  await allSaved(page, 1);
  expect((await onServer(context, id)).size).toBe(1);
});

test('SC2: a whole puppy by keyboard alone', async ({ browser }) => {
  const { id, links } = await opened();
  const { context, page } = await device(browser, { viewport: desk });
  await sitDown(page, links['mentor']);
  const [first] = await showings(id);
  const press = async (...keys: readonly string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  await press('-', '2', 'Enter');
  await expect(page.getByRole('heading', { name: 'Topline and loin', exact: true })).toBeVisible();
  await press('3', 'Enter', 'Enter');
  await expect(page.getByRole('heading', { name: 'Neck' })).toBeVisible();
  await press('ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowRight', 'Space', 'Enter');
  await expect(page.getByRole('heading', { name: 'Shoulder layback' })).toBeVisible();
  await press('5', 'Enter', 'c', 'Enter');
  const stored = async (field: string) => (await onServer(context, id)).get(`${first} ${field}`);
  await expect.poll(() => stored('score:body-length')).toBe(-2);
  await expect.poll(() => stored('score:topline-and-loin')).toBe(3);
  await expect.poll(() => stored('score:neck')).toBe(0);
  await expect.poll(() => stored('score:shoulder-layback')).toBe(5);
  await expect.poll(() => stored('score:upper-arm')).toBeNull();
  for (
    let question = 0;
    question < 40 && !(await page.getByRole('button', { name: 'Waiting for the table' }).isVisible());
    question += 1
  )
    await press('1', 'Enter');
  await expect(page.getByRole('heading', { name: 'Everything about Fern is answered' })).toBeVisible();
});

test('LV1: devices follow the table, except one that is elsewhere of its own accord', async ({ browser }) => {
  const { id, links } = await opened();
  const follower = await device(browser);
  const lead = await device(browser);
  const [name, value] = owner.cookie().split('=');
  await lead.context.addCookies([{ name: name ?? '', value: value ?? '', url: app.url }]);
  await lead.page.goto(`${app.url}/score?id=${id}`);
  await lead.page.getByRole('button', { name: 'Start scoring' }).click();
  await sitDown(follower.page, links['mentor']);
  const heading = (puppy: string) => follower.page.getByRole('heading', { level: 1, name: puppy });
  await lead.page.getByRole('button', { name: 'Table', exact: true }).click();
  await lead.page.getByRole('button', { name: 'On to Moss' }).click();
  await expect(heading('Moss')).toBeVisible();
  await expect(follower.page.getByText(/^Fern: \d+ questions open\.$/)).toBeVisible();
  await follower.page.getByRole('button', { name: 'Go back' }).click();
  await expect(heading('Fern')).toBeVisible();
  await lead.page.getByRole('button', { name: 'Table', exact: true }).click();
  await lead.page.getByRole('button', { name: 'Sorrel', exact: true }).click();
  await expect(follower.page.getByText('Sorrel is on the table now.', { exact: true })).toBeVisible();
  await expect(heading('Fern')).toBeVisible();
  await follower.page.getByRole('button', { name: 'Go there' }).click();
  await expect(heading('Sorrel')).toBeVisible();
});

test('LV2, BL1: the lock waits for the last entry; then one sees who has locked, and after the reveal the way to the board', async ({
  browser,
}) => {
  const { id, links } = await opened();
  const { context, page } = await device(browser);
  await sitDown(page, links['mentor']);
  await page.getByRole('button', { name: 'as asked' }).click();
  await allSaved(page, 1);
  await fromList(page, /^Your card/);
  await context.setOffline(true);
  await page.getByLabel('Your choice').first().selectOption({ index: 1 });
  await expect(page.getByText(/^Not yet: 1 answer only on this device/)).toBeVisible();
  await page.getByRole('button', { name: 'Lock …' }).click();
  await expect(page.getByRole('button', { name: 'Yes, lock my card' })).toBeDisabled();
  await context.setOffline(false);
  await page.getByRole('button', { name: 'Yes, lock my card' }).click();
  await expect(page.getByRole('heading', { name: 'Your card is locked' })).toBeVisible();
  await expect(page.getByRole('list', { name: 'Who has locked' })).toContainText('mentor (you)locked');
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await expect(page.getByText('The owner reveals next')).toBeVisible();
  await owner.api.evaluation.revealRound.mutate({ id });
  await expect(page.getByRole('link', { name: 'To the board' })).toBeVisible();
});

test('SC5: an entry that comes after the close is shown as late, until read', async ({ browser }) => {
  const { id, links } = await opened();
  const { context, page } = await device(browser);
  await sitDown(page, links['mentor']);
  await context.setOffline(true);
  await page.getByRole('button', { name: 'as asked' }).click();
  await expect(page.getByText('1 only on this phone')).toBeVisible();
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await context.setOffline(false);
  await expect(page.getByText(/came after the lock or the close/)).toBeVisible();
  expect((await onServer(context, id)).size).toBe(0);
  await page.getByRole('button', { name: 'I have read this' }).click();
  await expect(page.getByText(/came after the lock or the close/)).toHaveCount(0);
});
