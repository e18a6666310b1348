import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startApp, type App } from '#tests/support/startApp';
import { axeFaults } from '#tests/support/axeFaults';
import { closePages, desk, phone, sessionPage } from '#tests/support/sessionPage';

let running: App | null = null;
let seeded: Quillmarsh | null = null;
const folder = mkdtempSync(join(tmpdir(), 'evenstack-join-'));
const passphrase = 'heron under the low bridge';

const app = (): App => running ?? missing('the app');
const quillmarsh = (): Quillmarsh => seeded ?? missing('the litter');
function missing(what: string): never {
  throw new Error(`${what} is not there`);
}

test.beforeAll(async () => {
  running = await startApp({ data: folder });
  seeded = await seedQuillmarsh(await running.owner(), { join: false, puppies: 2 });
});

test.afterEach(closePages);

test.afterAll(async () => {
  await running?.[Symbol.asyncDispose]();
  rmSync(folder, { recursive: true, force: true });
});

/** What is read out: the signs of the code that the page shows. */
async function shownCode(page: Page): Promise<string> {
  const label = await page.getByLabel(/^Code( \w){10}$/).getAttribute('aria-label');
  return (label ?? '').replace('Code', '').replaceAll(' ', '');
}

async function typeCode(page: Page, code: string): Promise<void> {
  await page.goto(`${app().url}/join`);
  await page.getByLabel('Spoken code').fill(code);
  await page.getByRole('button', { name: 'Join on this device' }).click();
}

test('BL9: a spoken code, a second device let in by the first, and an end to both', async ({ browser }) => {
  const { id, owner } = quillmarsh();
  const ownerPage = await sessionPage(browser, owner, { viewport: desk });
  await ownerPage.goto(`${app().url}/setup?id=${id}`);
  await ownerPage.getByRole('button', { name: 'Spoken code for mentor' }).click();
  const code = await shownCode(ownerPage);

  const first = await browser.newContext({ viewport: phone });
  const mentor = await first.newPage();
  await typeCode(mentor, `${code.slice(0, -1)}${code.endsWith('Z') ? 'Y' : 'Z'}`);
  await expect(mentor.getByRole('alert').filter({ hasText: 'not right' })).toBeVisible();
  expect(await axeFaults(mentor)).toEqual([]);
  await mentor.getByLabel('Spoken code').fill(`${code.toLowerCase().slice(0, 4)} ${code.slice(4)}`);
  await mentor.getByRole('button', { name: 'Join on this device' }).click();
  await mentor.waitForURL(`**/score?id=${id}`);

  await mentor.goto(`${app().url}/devices`);
  await mentor.getByRole('button', { name: 'Make a code' }).click();
  const further = await shownCode(mentor);
  const second = await browser.newContext({ viewport: phone });
  const tablet = await second.newPage();
  await typeCode(tablet, further);
  const number = tablet.getByLabel(/^Number( \d){4}$/);
  const digits = await number.textContent();
  expect(await axeFaults(tablet)).toEqual([]);
  await expect(mentor.getByLabel(/^Number( \d){4}$/)).toHaveText(digits ?? '');
  expect(await axeFaults(mentor)).toEqual([]);
  await mentor.getByRole('button', { name: 'Same number: let it in' }).click();
  await tablet.waitForURL(`**/score?id=${id}`);

  await ownerPage.getByText('More for mentor').click();
  await ownerPage
    .getByRole('listitem', { name: 'mentor' })
    .getByRole('button', { name: /^End its sessions/ })
    .click();
  await ownerPage.getByRole('button', { name: 'Sign this seat out' }).click();
  for (const page of [mentor, tablet]) {
    await page.goto(`${app().url}/`);
    await expect(page.getByRole('heading', { name: 'You need a link or a code' })).toBeVisible();
  }
  await Promise.all([ownerPage.context().close(), first.close(), second.close()]);
});

test('BL9: the owner sets a passphrase and signs in with it on another device', async ({ browser }) => {
  const ownerPage = await sessionPage(browser, quillmarsh().owner, { viewport: desk });
  await ownerPage.goto(`${app().url}/devices`);
  await ownerPage.getByLabel('Passphrase', { exact: true }).fill('too short');
  await ownerPage.getByRole('button', { name: 'Set the passphrase' }).click();
  await expect(ownerPage.getByText('At least 15 characters.')).toBeVisible();
  await ownerPage.getByLabel('Passphrase', { exact: true }).fill(passphrase);
  await ownerPage.getByRole('button', { name: 'Set the passphrase' }).click();
  await expect(ownerPage.getByRole('region', { name: 'Recovery codes' }).getByRole('listitem')).toHaveCount(8);
  expect(await axeFaults(ownerPage)).toEqual([]);

  const other = await browser.newContext({ viewport: phone });
  const page = await other.newPage();
  await page.goto(`${app().url}/sign-in`);
  const field = page.getByLabel('Passphrase or recovery code');
  await field.fill('a passphrase of somebody else');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByRole('alert').filter({ hasText: 'not right' })).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  await field.fill(passphrase);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Your desk' })).toBeVisible();
  await Promise.all([ownerPage.context().close(), other.close()]);
});

test('BL5: what the server writes is for its own account alone, and what it prints holds no secret', () => {
  const open = readdirSync(folder, { recursive: true, withFileTypes: true }).filter(
    (entry) => (statSync(join(entry.parentPath, entry.name)).mode & 0o077) !== 0,
  );
  expect(open.map((entry) => entry.name)).toEqual([]);
  expect(statSync(folder).mode & 0o777).toBe(0o700);
  expect(app().printed.join('')).not.toContain(passphrase);
});

test('a telephone may put the app on its first screen: the browser finds a whole manifest and pictures of the sizes it names', async ({
  browser,
}) => {
  const page = await sessionPage(browser, null);
  await page.goto(app().url);
  const devtools = await page.context().newCDPSession(page);
  const { data = '', errors } = await devtools.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  expect(JSON.parse(data)).toMatchObject({ name: 'Evenstack', display: 'standalone', start_url: '/' });
  // Chromium fetches the pictures and measures them.
  const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
  expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
});

test('LV2: a page that cannot be drawn says so in its place, and offers to try again and a way on', async ({
  browser,
}) => {
  const page = await sessionPage(browser, quillmarsh().owner);
  await page.goto(app().url);
  await expect(page.getByRole('heading', { level: 2 }).first()).toBeVisible();
  await page.evaluate(() => {
    URLSearchParams.prototype.get = () => {
      throw new Error('planted');
    };
  });
  await page
    .getByRole('link', { name: /Quillmarsh|litter/i })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: 'This page could not be shown' })).toBeVisible();
  await expect(page.getByText('planted')).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('link', { name: 'To the first page' }).click();
  await expect(page.getByRole('heading', { name: 'This page could not be shown' })).toBeHidden();
});
