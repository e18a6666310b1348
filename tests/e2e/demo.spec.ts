import { expect, test, type Page } from '@playwright/test';
import { closePages } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';
import { axeFaults } from '#tests/support/axeFaults';

let app: App;

test.beforeAll(async () => {
  app = await startApp({ demo: true });
});

test.afterEach(closePages);

test.afterAll(async () => {
  await app[Symbol.asyncDispose]();
});

const address = () => {
  if (app.demoLink === null) throw new Error('the app printed no demo link');
  return app.demoLink;
};

/** Every page of the demo says that it is the demo. */
const saysSo = (page: Page) =>
  expect(page.getByRole('complementary', { name: 'Demo' })).toContainText('Nothing here is real');

test('DE1: a visitor takes the mentor’s seat, reads the sealed evaluation, and brings the open one to its reveal', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(address());
  await saysSo(page);
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Sit as the mentor' }).click();
  // The first visitor after a start may have to wait for the template.
  await expect(page.getByText('You sit as the mentor.')).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);

  await page.getByRole('button', { name: 'Read the sealed record' }).click();
  await expect(page).toHaveURL(/\/record\?id=/);
  await expect(
    page.getByText('the kennel’s veterinary surgeon').or(page.getByText("the kennel's veterinary surgeon")).first(),
  ).toBeVisible();
  await saysSo(page);

  await page.goto(address());
  await page.getByRole('button', { name: 'Score it' }).click();
  await expect(page).toHaveURL(/\/score\?id=/);
  await expect(page.getByText('Eight weeks (open)').first()).toBeVisible();
  await saysSo(page);

  await page.goto(address());
  await page.getByRole('button', { name: 'Bring it to its reveal' }).click();
  await expect(page.getByRole('heading', { name: 'Eight weeks: revealed' })).toBeVisible();
  await page.getByRole('link', { name: 'Read the board' }).click();
  await expect(page).toHaveURL(/\/board\?id=/);
  await expect(page.getByText('breeder (scripted)').filter({ visible: true }).first()).toBeVisible();
  await saysSo(page);
});

test('DE1: a second visitor has a copy of her own, and starting over takes a fresh one', async ({ browser }) => {
  const [one, other] = [await (await browser.newContext()).newPage(), await (await browser.newContext()).newPage()];
  for (const page of [one, other]) {
    await page.goto(address());
    await page.getByRole('button', { name: 'Sit as the breeder' }).click();
    await expect(page.getByText('You sit as the breeder.')).toBeVisible();
  }
  await one.getByRole('button', { name: 'Bring it to its reveal' }).click();
  await expect(one.getByRole('heading', { name: 'Eight weeks: revealed' })).toBeVisible();
  await other.reload();
  await expect(other.getByRole('heading', { name: 'Eight weeks: yours to score' })).toBeVisible();
  await one.getByRole('button', { name: 'Start over with another seat' }).click();
  expect(await axeFaults(one)).toEqual([]);
  await one.getByRole('button', { name: 'Sit as the photographer' }).click();
  await expect(one.getByText('You sit as the photographer.')).toBeVisible();
  await expect(one.getByRole('heading', { name: 'Eight weeks: yours to score' })).toBeVisible();
});

test('DE1: the server beside it has no demo, and says nothing of one', async ({ page }) => {
  await page.goto(`${app.url}/demo`);
  await expect(page.getByText('There is no demo at this address')).toBeVisible();
  await expect(page.getByRole('complementary', { name: 'Demo' })).toHaveCount(0);
  expect(await axeFaults(page)).toEqual([]);
});

test('DE1: DEMO_PORT=off leaves the demo out', async () => {
  await using without = await startApp();
  expect(without.demoLink).toBe(null);
  expect(without.printed.join('')).not.toMatch(/demo/i);
});
