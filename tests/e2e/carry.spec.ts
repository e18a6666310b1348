import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { axeFaultsInBothThemes } from '#tests/support/axeFaults';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import { closePages, desk, sessionPage } from '#tests/support/sessionPage';
import { startApp } from '#tests/support/startApp';

test.afterEach(closePages);

test('SC3: an owner takes an evaluation along by its record page, and another brings it in on the start page, after a damaged one was refused', async ({
  browser,
}) => {
  const folder = mkdtempSync(join(tmpdir(), 'evenstack-carried-'));
  const zip = join(folder, 'carried.zip');
  await using origin = await startApp();
  const day = await seedQuillmarsh(await origin.owner(), { puppies: 3 });
  const [puppy = ''] = (await day.owner.api.evaluation.get.query({ id: day.id })).puppies.map((one) => one.id);
  await sendPhoto(day.owner, { evaluation: day.id, puppy, bytes: await plainPicture(60) });
  await playToReveal(day);
  const record = await sessionPage(browser, day.owner, { viewport: desk });
  await record.goto(`${origin.url}/record?id=${day.id}`);
  const arriving = record.waitForEvent('download');
  await record.getByRole('link', { name: 'Everything as one file' }).click();
  const download = await arriving;
  expect(download.suggestedFilename()).toBe('Eight-weeks.zip');
  await download.saveAs(zip);

  await using second = await startApp();
  const owner = await second.owner();
  const page = await sessionPage(browser, owner, { viewport: desk });
  await page.goto(`${second.url}/`);
  await page.getByText('Bring in an evaluation from another Evenstack').click();
  const damaged = join(folder, 'damaged.zip');
  const bytes = readFileSync(zip);
  writeFileSync(damaged, bytes.subarray(0, bytes.length - 30));
  await page.getByLabel('Choose the file').setInputFiles(damaged);
  await expect(page.getByRole('alert').filter({ hasText: 'damaged, cut short' })).toContainText('Nothing was changed.');
  expect(await owner.api.evaluation.list.query()).toEqual([]);
  await page.getByLabel('Choose the file').setInputFiles(zip);
  await expect(page.getByText('Its record was checked and holds.')).toBeVisible();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  await page.getByRole('link', { name: 'Go to its board' }).click();
  await expect(page.getByText(/^Imported on .* from a file; its record was checked\.$/)).toBeVisible();
  await expect(page.getByText(/whoever wrote the file could have written that record anew/)).toBeVisible();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  await page.getByRole('link', { name: 'Decision', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'The pick order' })).toBeVisible();
  await expect(page.getByRole('button')).toHaveCount(0);
  await page.goto(`${second.url}/`);
  await expect(page.getByText('imported from a file, only read here')).toBeVisible();
  rmSync(folder, { recursive: true, force: true });
});
