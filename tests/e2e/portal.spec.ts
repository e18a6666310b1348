import { expect, test, type Page } from '@playwright/test';
import { drawnPictures } from '#tests/support/drawnPictures';
import { startPortal } from '#tests/support/portal';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { closePages } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';
import type { TestClient } from '#tests/support/testClient';

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

const through = (url: string, link: string | undefined) => `${url}/join${new URL(link ?? '').hash}`;
const joins = (page: Page) => page.getByRole('button', { name: 'Join on this device' });

test('LV2, SC1: behind a network that answers 200 to everything no score is called sent; all arrive once it lets through', async ({
  browser,
}) => {
  const { id, links } = await seedQuillmarsh(owner, { puppies: 2, sheet: 'short', join: false });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await using portal = await startPortal(app.url);
  const page = await (await browser.newContext()).newPage();
  await page.goto(through(portal.url, links['mentor']));
  // The link is not used up by a stranger's answer, and the page says what happened.
  portal.set('shut');
  await joins(page).click();
  await expect(page.getByText('something else answered in its place')).toBeVisible();
  portal.set('open');
  await joins(page).click();
  await page.getByRole('button', { name: 'Start scoring' }).click();
  await expect(page.getByRole('heading', { name: 'Body length to height' })).toBeVisible();
  portal.set('shut');
  for (let question = 0; question < 3; question += 1) {
    await page.getByRole('group').last().getByRole('button').nth(2).click();
    await page.getByRole('button', { name: /^Next: / }).click();
  }
  await expect.poll(() => portal.answered()).toBeGreaterThan(2);
  await expect(page.getByText(/^3 only on this /)).toBeVisible();
  await expect(page.getByText(/^all \d+ on the server|^\d+ answers? on the server/)).toBeHidden();
  const { seats } = await owner.api.evaluation.get.query({ id });
  expect(seats.find((seat) => seat.label === 'mentor')?.state).toBe('joined');
  portal.set('open');
  await expect(page.getByText(/all 3 on the server/i)).toBeVisible();
});

test('LV2, SC1: behind such a network no picture is called sent; a refusal of its size is named; all arrive once it lets through', async ({
  browser,
}) => {
  const { id, links } = await seedQuillmarsh(owner, { puppies: 2, join: false });
  await using portal = await startPortal(app.url);
  const page = await (await browser.newContext()).newPage();
  await page.goto(through(portal.url, links['photographer']));
  await joins(page).click();
  await expect(joins(page)).toBeHidden();
  await page.goto(`${portal.url}/photos?id=${id}`);
  await page.getByRole('button', { name: 'Add many' }).click();
  const pictures = await drawnPictures(2);
  portal.set('shut');
  await page
    .getByLabel('Choose pictures')
    .setInputFiles(pictures.map((buffer, index) => ({ name: `IMG_${index + 1}.jpg`, mimeType: 'image/jpeg', buffer })));
  await page.getByRole('button', { name: 'Send 2 pictures' }).click();
  await expect(
    page.getByText('2 pictures only on this device: no answer from the server, trying again.'),
  ).toBeVisible();
  expect((await owner.api.photo.list.query({ id })).photos).toEqual([]);
  portal.set('narrow');
  await expect(page.getByText(/Too large for the way there/).first()).toBeVisible();
  expect((await owner.api.photo.list.query({ id })).photos).toEqual([]);
  portal.set('open');
  await expect(page.getByText('2 pictures sent, none waits.')).toBeVisible();
  expect((await owner.api.photo.list.query({ id })).photos).toHaveLength(2);
  await expect
    .poll(() =>
      page
        .locator('img')
        .evaluateAll((all: HTMLImageElement[]) => all.every((one) => !one.complete || one.naturalWidth > 0)),
    )
    .toBe(true);
});
