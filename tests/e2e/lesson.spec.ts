import { expect, test, type Page } from '@playwright/test';
import { usualPlan } from '#lib/contract/plan';
import { lockCard } from '#tests/support/scoreInBrowser';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startApp, type App } from '#tests/support/startApp';
import type { TestClient } from '#tests/support/testClient';
import { axeFaults } from '#tests/support/axeFaults';
import { closePages, sessionPage } from '#tests/support/sessionPage';

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

async function toCard(page: Page): Promise<void> {
  const list = page.getByRole('button', { name: 'List', exact: true });
  const here = page.getByRole('heading', { name: 'Your card', exact: true });
  await expect(list.or(here)).toBeVisible();
  if (await here.isVisible()) return;
  await list.click();
  await page.getByRole('button', { name: 'Your card: what is open, your choice, lock' }).click();
  await expect(here).toBeVisible();
}

/** The breeder learns; the co-owner's seat is the mentor's. */
async function openLesson(): Promise<Quillmarsh & { readonly mentor: TestClient }> {
  const quillmarsh = await seedQuillmarsh(owner, { puppies: 4, panel: ['co-owner'] });
  const { id } = quillmarsh;
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, slots, order, seats } =
    await owner.api.setup.get.query({ id });
  const terms = slots.map(({ id: _, ...slot }) => slot);
  const plan = { ...usualPlan, kind: 'lesson' as const, learnerSeatId: seats.find((seat) => seat.owner)?.id ?? '' };
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: terms,
    order,
    plan,
  });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const mentor = quillmarsh.seats['co-owner'];
  if (!mentor) throw new Error('no mentor');
  return { ...quillmarsh, mentor };
}

async function choose(client: TestClient, id: string, name: string): Promise<void> {
  const view = await client.api.evaluation.get.query({ id });
  const puppy = view.puppies.find((one) => one.name === name)?.id ?? null;
  const body = { kind: 'choice', puppy, reason: 'the better front', chance: 60 } as const;
  await client.api.card.submit.mutate({
    id,
    entries: [
      { id: crypto.randomUUID().replaceAll('-', ''), subject: view.slots[0]?.id ?? '', counter: 1, madeAt: 1, body },
    ],
  });
}

test('BL1: a mentor reviews a novice’s card: closed to both until the mentor’s lock, then the same page says what parts them', async ({
  browser,
}) => {
  const { id, mentor } = await openLesson();
  await scoreCard(owner, id, steadyCell);
  await scoreCard(mentor, id, (cell) =>
    cell.criterion === 'front-legs' ? (cell.puppy === 'Moss' ? 7 : 1) : steadyCell({ ...cell, seat: 'breeder' }),
  );
  await choose(owner, id, 'Fern');
  await choose(mentor, id, 'Moss');
  const [novice, master] = [
    await sessionPage(browser, owner),
    await sessionPage(browser, mentor, { colorScheme: 'dark' }),
  ];
  for (const page of [novice, master]) {
    await page.goto(`${app.url}/lesson?id=${id}`);
    await expect(page.getByText('The lesson opens with the mentor’s lock')).toBeVisible();
  }
  await master.goto(`${app.url}/score?id=${id}`);
  await toCard(master);
  await lockCard(master);
  await expect(master.getByText('The learner locks first', { exact: false })).toBeVisible();
  await novice.goto(`${app.url}/score?id=${id}`);
  await toCard(novice);
  await lockCard(novice);
  await expect(novice.getByText('All is open now')).toBeHidden();
  await master.reload();
  await toCard(master);
  await lockCard(master);
  for (const page of [novice, master]) {
    await page.getByRole('link', { name: 'To the lesson' }).click();
    await expect(page.getByRole('heading', { name: 'Criterion by criterion' })).toBeVisible();
    await expect(page.getByText('the learner chose Fern, the mentor Moss', { exact: false })).toBeVisible();
    await expect(page.getByRole('heading', { name: 'Next time, look at' })).toBeVisible();
    await expect(page.getByText('1 litter so far', { exact: false })).toBeVisible();
    expect(await axeFaults(page)).toEqual([]);
  }
});

test('BL1: practice on drawn puppies shows the others’ answers at one’s own lock, not before', async ({ browser }) => {
  const { id, seats } = await seedQuillmarsh(owner, { puppies: 3 });
  await seats['photographer']?.api.practice.lock.mutate({
    id,
    answers: [{ picture: 'first', criterion: 'neck', value: -2 }],
  });
  const page = await sessionPage(browser, seats['mentor'] ?? owner);
  await page.goto(`${app.url}/practice?id=${id}`);
  await expect(page.getByRole('img', { name: /First picture/ })).toBeVisible();
  await expect(page.getByText('photographer', { exact: false })).toHaveCount(0);
  await page
    .getByRole('group', { name: 'Neck, First picture' })
    .getByRole('button', { name: /as asked/ })
    .click();
  await page.getByRole('button', { name: 'Lock my practice' }).click();
  await expect(page.getByRole('heading', { name: 'Practice, compared' })).toBeVisible();
  await expect(page.getByText('you 0, photographer -2')).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
});
