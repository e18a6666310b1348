import { expect, test, type Page } from '@playwright/test';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { closePages } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';
import type { TestClient } from '#tests/support/testClient';
import { axeFaults } from '#tests/support/axeFaults';

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

const openList = (page: Page) => page.getByRole('button', { name: 'List', exact: true }).click();
const summary = (page: Page) => page.getByText('Scored under the wrong collar?');

test('SC3: after a collar swap two cards change places, asked twice, never while an answer waits, and the record says so', async ({
  browser,
}) => {
  const { id, links } = await seedQuillmarsh(owner, { puppies: 3, join: false });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await page.goto(links['mentor'] ?? '');
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await page.getByRole('button', { name: 'Start scoring' }).click();
  await page.getByRole('button', { name: 'too long, 2 clear' }).click();
  await expect(page.getByText('1 answer on the server')).toBeVisible();
  await context.setOffline(true);
  await page.getByRole('button', { name: 'too long, 3 marked' }).click();
  await openList(page);
  await summary(page).click();
  await page.getByLabel('Your card on Fern belongs to').selectOption({ label: 'Moss, amber collar' });
  await expect(page.getByText(/^Not yet: 1 answer only on this device/)).toBeVisible();
  await expect(page.getByRole('button', { name: 'Let them change places …' })).toBeDisabled();
  await context.setOffline(false);
  await page.getByRole('button', { name: 'Let them change places …' }).click();
  await expect(page.getByText('All you said of Fern goes to Moss, and all you said of Moss to Fern.')).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Yes, change them' }).click();
  await expect(page.getByText('Done. The two cards have changed places.')).toBeVisible();
  await page.getByRole('button', { name: 'Close' }).click();
  await expect(page.getByRole('button', { name: 'too long, 3 marked' })).toHaveAttribute('aria-pressed', 'false');
  await openList(page);
  await page.getByRole('dialog').getByRole('button', { name: /^Moss/ }).first().click();
  await expect(page.getByRole('heading', { level: 1, name: 'Moss' })).toBeVisible();
  // The screen stands at Moss's first open question: the first one is answered now.
  await page.getByRole('button', { name: 'Back', exact: true }).click();
  await expect(page.getByRole('button', { name: 'too long, 3 marked' })).toHaveAttribute('aria-pressed', 'true');
  const line = (await owner.api.record.list.query({ id })).find((one) => one.kind === 'card-moved');
  expect(line).toMatchObject({ actor: 'mentor', detail: 'Fern and Moss' });
  await context.close();
});
