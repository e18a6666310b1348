import { expect, test, type Browser, type BrowserContext, type Locator, type Page } from '@playwright/test';
import { axeFaults } from '#tests/support/axeFaults';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { closePages, desk, phone, sessionPage } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';
import { testClient, type TestClient } from '#tests/support/testClient';

let app: App;
let owner: TestClient;

test.beforeAll(async () => {
  app = await startApp();
  owner = await app.owner();
});

test.afterAll(async () => {
  await app[Symbol.asyncDispose]();
});

test.afterEach(closePages);

type Table = {
  readonly id: string;
  readonly link: string;
  /** Puts a puppy on the table, as another device would. */
  readonly put: (name: string) => Promise<void>;
};

async function table(): Promise<Table> {
  const { id, links } = await seedQuillmarsh(owner, { puppies: 3, sheet: 'short', join: false });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const put = async (name: string) => {
    const { round, puppies } = await owner.api.evaluation.get.query({ id });
    const showing = round?.showings.find((one) => puppies.find((puppy) => puppy.id === one.puppyId)?.name === name);
    await owner.api.evaluation.moveTable.mutate({ id, showingId: showing?.id ?? '' });
  };
  return { id, link: links['mentor'] ?? '', put };
}

async function sitDown(
  browser: Browser,
  link: string,
  hasTouch = false,
): Promise<{ readonly context: BrowserContext; readonly page: Page }> {
  const context = await browser.newContext({ viewport: phone, hasTouch });
  const page = await context.newPage();
  await page.goto(link);
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await page.getByRole('button', { name: 'Start scoring' }).click();
  await expect(page.getByRole('heading', { name: 'Body length to height' })).toBeVisible();
  return { context, page };
}

/** The owner leads the table from a computer. */
async function lead(browser: Browser, id: string): Promise<Page> {
  const page = await sessionPage(browser, owner, { viewport: desk });
  await page.goto(`${app.url}/score?id=${id}`);
  await page.getByRole('button', { name: 'Start scoring' }).click();
  await expect(page.getByRole('heading', { name: 'Body length to height' })).toBeVisible();
  return page;
}

/** What a seat has said, by puppy and field, as the server holds it. */
async function said(client: TestClient, id: string): Promise<Readonly<Record<string, unknown>>> {
  const [{ answers }, { round, puppies }] = await Promise.all([
    client.api.card.mine.query({ id }),
    client.api.evaluation.get.query({ id }),
  ]);
  const nameOf = (subject: string) =>
    puppies.find((puppy) => puppy.id === round?.showings.find((one) => one.id === subject)?.puppyId)?.name ?? subject;
  return Object.fromEntries(
    answers.map(({ subject, field, body }) => [
      `${nameOf(subject)} ${field}`,
      'value' in body ? body.value : 'text' in body ? body.text : body,
    ]),
  );
}

async function clientOf(context: BrowserContext): Promise<TestClient> {
  const [cookie] = await context.cookies(app.url);
  return testClient(app.url, `${cookie?.name}=${cookie?.value}`);
}

const puppyShown = (page: Page, name: string) => expect(page.getByRole('heading', { level: 1, name })).toBeVisible();
const key = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

async function middleOf(locator: Locator): Promise<{ readonly x: number; readonly y: number }> {
  const box = await locator.boundingBox();
  if (!box) throw new Error('not on the screen');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Two taps at one place, as fast as a thumb that bounces. */
async function doubleTap(page: Page, locator: Locator): Promise<void> {
  await locator.scrollIntoViewIfNeeded();
  const at = await middleOf(locator);
  const cdp = await page.context().newCDPSession(page);
  // Dated here: sent one after the other on a busy machine they would be two taps.
  const began = Date.now() / 1000;
  const halves = [
    ['mousePressed', 0],
    ['mouseReleased', 0.03],
    ['mousePressed', 0.12],
    ['mouseReleased', 0.15],
  ] as const;
  for (const [order, [type, after]] of halves.entries()) {
    await cdp.send('Input.dispatchMouseEvent', {
      ...at,
      type,
      button: 'left',
      clickCount: order < 2 ? 1 : 2,
      timestamp: began + after,
    });
  }
}

for (const hand of ['mouse', 'finger'] as const) {
  test(`LV3: a press under way when the table moves is filed under the puppy that was shown when it began, ${hand}`, async ({
    browser,
  }) => {
    const { id, link, put } = await table();
    const { context, page } = await sitDown(browser, link, hand === 'finger');
    const seat = await clientOf(context);
    const at = await middleOf(key(page, 'too long, 2 clear'));
    const cdp = await context.newCDPSession(page);
    const down = () =>
      hand === 'mouse'
        ? page.mouse.move(at.x, at.y).then(() => page.mouse.down())
        : cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at] });
    const up = () =>
      hand === 'mouse' ? page.mouse.up() : cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await down();
    await put('Moss');
    // Another device shows it by now; this one has a finger on Fern.
    await page.waitForTimeout(1000);
    await up();
    await expect.poll(() => said(seat, id)).toEqual({ 'Fern score:body-length': 2 });
    await puppyShown(page, 'Fern');
    await expect(page.getByText('Moss is on the table now.', { exact: true })).toBeVisible();
    await context.close();
  });
}

test('LV3: a press that comes 300 ms after the table moved is asked about, and filed only where the answer says', async ({
  browser,
}) => {
  const { id, link, put } = await table();
  const { context, page } = await sitDown(browser, link);
  const seat = await clientOf(context);
  /** Presses a key 300 ms after the page shows this puppy, to the millisecond, however slow the machine. */
  const pressAfter = (puppy: string, wanted: string) =>
    page.evaluate(
      ([name, value]) =>
        new Promise<void>((resolve) => {
          const look = () => {
            if (document.querySelector('h1')?.textContent !== name) return requestAnimationFrame(look);
            const shown = Date.now();
            while (Date.now() < shown + 300);
            const button = document.querySelector(`[data-key="${value}"]`);
            for (const kind of ['pointerdown', 'pointerup'])
              button?.dispatchEvent(
                new PointerEvent(kind, { bubbles: true, button: 0, pointerId: 7, pointerType: 'touch' }),
              );
            button?.dispatchEvent(new MouseEvent('click', { bubbles: true, detail: 1 }));
            return resolve();
          };
          look();
        }),
      [puppy, wanted] as const,
    );
  const pressed = pressAfter('Moss', '2');
  await put('Moss');
  await pressed;
  await expect(page.getByText(/came just as Moss was put on the table/)).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  expect(await said(seat, id)).toEqual({});
  await page.getByRole('button', { name: 'For Fern', exact: true }).click();
  await expect.poll(() => said(seat, id)).toEqual({ 'Fern score:body-length': 2 });
  await puppyShown(page, 'Moss');
  const again = pressAfter('Sorrel', '-1');
  await put('Sorrel');
  await again;
  await page.getByRole('button', { name: 'For Sorrel', exact: true }).click();
  await expect.poll(() => said(seat, id)).toEqual({ 'Fern score:body-length': 2, 'Sorrel score:body-length': -1 });
  // Long after the table moved, a press is a press.
  await page.waitForTimeout(800);
  await key(page, 'too long, 3 marked').click();
  await expect.poll(() => said(seat, id)).toEqual({ 'Fern score:body-length': 2, 'Sorrel score:body-length': 3 });
  await context.close();
});

test('LV3: a seat in the midst of a puppy stays with it until it goes on, and finds its place again', async ({
  browser,
}) => {
  const { link, put } = await table();
  const { context, page } = await sitDown(browser, link);
  await key(page, 'as asked').click();
  await page.getByRole('button', { name: /^Next: / }).click();
  await expect(page.getByRole('heading', { name: 'Topline and loin', exact: true })).toBeVisible();
  await put('Moss');
  await expect(page.getByText('Moss is on the table now.', { exact: true })).toBeVisible();
  await puppyShown(page, 'Fern');
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Go there' }).click();
  await puppyShown(page, 'Moss');
  await expect(page.getByText(/^Fern: \d+ questions open\.$/)).toBeVisible();
  await page.getByRole('button', { name: 'Go back' }).click();
  await puppyShown(page, 'Fern');
  await expect(page.getByRole('heading', { name: 'Topline and loin', exact: true })).toBeVisible();
  // One who has not begun follows.
  await page.getByRole('button', { name: 'Go there' }).click();
  await put('Sorrel');
  await puppyShown(page, 'Sorrel');
  await context.close();
});

test('LV3: a note that is being written stays with its puppy when the table moves', async ({ browser }) => {
  const { id, link, put } = await table();
  const { context, page } = await sitDown(browser, link);
  const seat = await clientOf(context);
  await page.getByRole('button', { name: 'Note', exact: true }).click();
  const field = page.getByLabel('About Fern as a whole');
  await field.pressSequentially('roach');
  await put('Moss');
  await page.waitForTimeout(500);
  await field.pressSequentially('ed back');
  await page.getByRole('button', { name: 'Close' }).click();
  await expect.poll(() => said(seat, id)).toEqual({ 'Fern note': 'roached back' });
  await puppyShown(page, 'Fern');
  await context.close();
});

test('LV3: the second tap of a double tap takes no score back, and a later press does', async ({ browser }) => {
  const { id, link } = await table();
  const { context, page } = await sitDown(browser, link);
  const seat = await clientOf(context);
  await doubleTap(page, key(page, 'as asked'));
  await expect.poll(() => said(seat, id)).toEqual({ 'Fern score:body-length': 0 });
  await page.waitForTimeout(800);
  expect(await said(seat, id)).toEqual({ 'Fern score:body-length': 0 });
  await key(page, 'as asked').click();
  await expect.poll(() => said(seat, id)).toEqual({ 'Fern score:body-length': null });
  await context.close();
});

test('LV3: a double tap in the list, on "Done with" or on "Lock" goes no further than one tap', async ({ browser }) => {
  const { id } = await table();
  const page = await lead(browser, id);
  await page.setViewportSize(phone);
  const under = await middleOf(page.locator('[data-key="0"]'));
  await page.getByRole('button', { name: 'List', exact: true }).click();
  const row = page.getByRole('dialog').getByRole('button', { name: /^Neck/ });
  // A key of the question chosen will lie where the row was.
  await row.evaluate((one, y) => {
    const box = one.getBoundingClientRect();
    one.closest('dialog')?.scrollBy(0, box.top + box.height / 2 - y);
  }, under.y);
  expect(Math.abs((await middleOf(row)).y - under.y)).toBeLessThan(10);
  for (let tap = 0; tap < 2; tap += 1) await page.mouse.click(under.x, under.y);
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await page.waitForTimeout(500);
  expect(await said(owner, id)).toEqual({});
  for (
    let question = 0;
    question < 60 && !(await page.getByRole('button', { name: /^Done with/ }).isVisible());
    question += 1
  )
    await page.getByRole('button', { name: /^Next: / }).click();
  const before = (await owner.api.evaluation.get.query({ id })).round?.tableShowingId;
  await doubleTap(page, page.getByRole('button', { name: /^Done with/ }));
  await expect(page.getByRole('button', { name: 'Next to the table: Moss' })).toBeVisible();
  await page.waitForTimeout(500);
  expect((await owner.api.evaluation.get.query({ id })).round?.tableShowingId).toBe(before);
  await page.getByRole('button', { name: 'Next to the table: Moss' }).click();
  await puppyShown(page, 'Moss');
  await page.goto(`${app.url}/score?id=${id}&show=card`);
  await doubleTap(page, page.getByRole('button', { name: 'Lock …' }));
  await expect(page.getByRole('button', { name: 'Yes, lock my card' })).toBeVisible();
  await page.waitForTimeout(500);
  expect((await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'breeder')?.state).toBe(
    'joined',
  );
  await page.getByRole('button', { name: 'Yes, lock my card' }).click();
  await expect(page.getByRole('heading', { name: 'Your card is locked' })).toBeVisible();
  await page.context().close();
});

test('LV3: after a drawer the focus is where it was and the keyboard scores, whether the table moved or not', async ({
  browser,
}) => {
  const { id } = await table();
  const page = await lead(browser, id);
  for (const way of ['Table', 'Note'] as const) {
    await page.getByRole('button', { name: way, exact: true }).click();
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toHaveCount(0);
    await expect(page.getByRole('button', { name: way, exact: true })).toBeFocused();
  }
  await page.keyboard.press('-');
  await page.keyboard.press('2');
  await expect.poll(() => said(owner, id)).toEqual({ 'Fern score:body-length': -2 });
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await page.getByRole('button', { name: 'On to Moss' }).click();
  await puppyShown(page, 'Moss');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await page.keyboard.press('3');
  await expect.poll(() => said(owner, id)).toEqual({ 'Fern score:body-length': -2, 'Moss score:body-length': 3 });
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Topline and loin', exact: true })).toBeVisible();
  // A key held down goes on by one question, not by twenty.
  await page.keyboard.down('Enter');
  for (let repeat = 0; repeat < 5; repeat += 1) await page.keyboard.down('Enter');
  await page.keyboard.up('Enter');
  await page.waitForTimeout(300);
  await expect(page.getByRole('button', { name: 'Back', exact: true })).toBeVisible();
  await page.getByRole('button', { name: 'Back', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Topline and loin', exact: true })).toBeVisible();
  await page.context().close();
});

test('SC3: a puppy withdrawn by mistake is brought back with what was said of it, and the record keeps both', async ({
  browser,
}) => {
  const { id } = await table();
  const page = await lead(browser, id);
  await key(page, 'as asked').click();
  await expect.poll(() => said(owner, id)).toEqual({ 'Fern score:body-length': 0 });
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await page.getByText('Withdraw a puppy').click();
  await page.getByLabel('Puppy').selectOption({ label: 'Fern' });
  await page.getByLabel('Reason').fill('limping');
  await page.getByRole('button', { name: 'Withdraw', exact: true }).click();
  await expect(page.getByRole('button', { name: 'Bring Fern back' })).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  const withdrawn = async () =>
    (await owner.api.evaluation.get.query({ id })).puppies.find((puppy) => puppy.name === 'Fern')?.withdrawn;
  expect(await withdrawn()).toBe(true);
  await page.getByRole('button', { name: 'Bring Fern back' }).click();
  await expect.poll(withdrawn).toBe(false);
  expect(await said(owner, id)).toEqual({ 'Fern score:body-length': 0 });
  await page.goto(`${app.url}/setup?id=${id}`);
  await page.getByText('Withdraw a puppy').click();
  await expect(page.getByLabel('Puppy').getByRole('option', { name: 'Fern' })).toHaveCount(1);
  await page.goto(`${app.url}/record?id=${id}`);
  await expect(page.getByText('withdrew a puppy: Fern: limping')).toBeVisible();
  await expect(page.getByText('brought back a withdrawn puppy: Fern')).toBeVisible();
  await page.context().close();
});
