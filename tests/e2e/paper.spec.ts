import { expect, test, type Page } from '@playwright/test';
import { axeFaultsInBothThemes } from '#tests/support/axeFaults';
import { lockCard } from '#tests/support/lockCard';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { closePages, desk, sessionPage } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';

let app: App;

test.beforeAll(async () => {
  app = await startApp();
});

test.afterEach(closePages);

test.afterAll(async () => {
  await app[Symbol.asyncDispose]();
});

/** Types a whole sheet: the same sign for every question that has it, else the first. */
async function typeSheet(page: Page, code: string): Promise<void> {
  await page.getByLabel('Code on the sheet').fill(code.toLowerCase());
  await page.getByRole('button', { name: 'Type this sheet' }).click();
  const signs = page.getByRole('textbox', { name: /the sign in the box$/ });
  const questions = await page.getByRole('list', { name: 'Questions' }).getByRole('listitem').count();
  for (let at = 0; at < questions; at += 1) await signs.press(at < 5 ? '4' : '1');
  await expect(signs).toHaveCount(0);
  await page.getByLabel('A word on the sheet').fill('stands four square');
  await page.getByRole('button', { name: 'Send this card' }).click();
  await expect(page.getByRole('list', { name: 'Sheets' })).toBeVisible();
}

test('BL1, BL5: a day with a seat on paper: marked, printed, typed by the owner once she has locked, never shown again, and told on the board', async ({
  browser,
}) => {
  const owner = await app.owner();
  const { id, seats } = await seedQuillmarsh(owner, { puppies: 2, panel: ['mentor'] });
  const page = await sessionPage(browser, owner, { viewport: desk });
  await page.goto(`${app.url}/setup?id=${id}`);
  await page.getByRole('button', { name: 'Add a seat' }).click();
  const form = page.getByRole('form', { name: 'New seat' });
  await form.getByLabel('Seat', { exact: true }).fill('neighbour');
  await form.getByLabel('Sees and touches').selectOption({ label: 'hands-on' });
  await form.getByRole('checkbox', { name: /^Answers on paper/ }).check();
  await form.getByRole('button', { name: 'Save seat' }).click();
  await expect(page.getByText('answers on paper', { exact: true })).toBeVisible();
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  for (const client of [owner, seats['mentor'] ?? owner]) await scoreCard(client, id, steadyCell);

  // The sheets: blank, a puppy each, nothing else on the paper.
  await page.goto(`${app.url}/paper?id=${id}`);
  await expect(page.getByRole('button', { name: 'Print 2 blank sheets of neighbour' })).toBeVisible();
  await expect(page.getByText('Lock your own card first')).toBeVisible();
  await page.emulateMedia({ media: 'print' });
  await expect(page.getByRole('table')).toHaveCount(2);
  await expect(page.getByRole('table').first()).toContainText('Fern');
  await expect(page.getByRole('table').first()).toContainText('Lock: signature');
  await expect(page.getByRole('button', { name: /^Print/ })).toBeHidden();
  const box = await page.getByRole('table').first().getByText('7', { exact: true }).first().boundingBox();
  // Nine millimetres at 96 dots an inch.
  expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual((9 * 96) / 25.4);
  await page.emulateMedia({ media: 'screen' });

  await lockCard(owner, id);
  await expect(page.getByLabel('Code on the sheet')).toBeVisible();
  expect(await axeFaultsInBothThemes(page)).toEqual([]);
  const codes = await page.getByRole('list', { name: 'Sheets' }).getByRole('strong').allInnerTexts();
  expect(codes).toHaveLength(2);
  await page.getByLabel('Code on the sheet').fill('Q9Q');
  await page.getByRole('button', { name: 'Type this sheet' }).click();
  await expect(page.getByText('No sheet of neighbour has this code')).toBeVisible();
  for (const code of codes) await typeSheet(page, code);
  await expect(page.getByText(/^typed .*, by the owner, \d+ of \d+ answers$/)).toHaveCount(2);
  expect(await page.content()).not.toContain('stands four square');

  await page.getByLabel('Time on the paper').fill('11.40');
  await page.getByRole('button', { name: /^Lock these cards/ }).click();
  await page.getByRole('button', { name: 'Yes, lock them' }).click();
  await expect(page.getByLabel('Code on the sheet')).toHaveCount(0);
  await lockCard(seats['mentor'], id);
  await owner.api.evaluation.revealRound.mutate({ id });
  await page.goto(`${app.url}/board?id=${id}`);
  await expect(
    page.getByText(
      'The card of neighbour was typed from paper by the owner, who saw it then and could no longer score.',
    ),
  ).toBeVisible();
  await page.goto(`${app.url}/record?id=${id}`);
  await expect(page.getByText(/typed a card from paper, of: neighbour, sheet/)).toHaveCount(2);
});
