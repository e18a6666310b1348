import { expect, test, type Browser, type BrowserContext, type Page } from '@playwright/test';
import { shortSheet } from '#lib/sheet/shippedSheets';
import type { SeatInput } from '#lib/contract/setup';
import { quillmarshPuppies } from '#tests/support/seedQuillmarsh';
import { holdTime } from '#tests/support/latency';
import { playToReveal, type CellOf } from '#tests/support/scoreCards';
import { lockCard, scorePuppy, toCard } from '#tests/support/scoreInBrowser';
import { closePages, sessionPage } from '#tests/support/sessionPage';
import { startApp, type App } from '#tests/support/startApp';
import { testClient, type TestClient } from '#tests/support/testClient';

const names = quillmarshPuppies.slice(0, 4).map((puppy) => puppy.name);

async function telephone(browser: Browser): Promise<{ readonly context: BrowserContext; readonly page: Page }> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  return { context, page: await context.newPage() };
}

async function clientOf(app: App, context: BrowserContext): Promise<TestClient> {
  const [cookie] = await context.cookies(app.url);
  if (!cookie) throw new Error('this browser has no session');
  return testClient(app.url, `${cookie.name}=${cookie.value}`);
}

/** A short sheet of four criteria and two checks, four puppies, and a panel of three beside the owner. */
async function prepare(owner: TestClient): Promise<{ readonly id: string; readonly links: Record<string, string> }> {
  const criteria = [
    ...shortSheet.criteria.filter((one) => one.twoSided).slice(0, 2),
    ...shortSheet.criteria.filter((one) => !one.twoSided && !one.handsOnly).slice(0, 2),
  ];
  const { id: sheetId } = await owner.api.sheet.save.mutate({
    id: null,
    sheet: { ...shortSheet, name: 'Four criteria', criteria, checks: ['bite', 'breathing'] },
  });
  const { id: litterId } = await owner.api.litter.save.mutate({
    id: null,
    litter: { name: 'Quillmarsh autumn', breed: 'Leonberger', dam: 'Gorse', sire: 'Alder', whelpedOn: '2026-07-18' },
  });
  for (const puppy of quillmarshPuppies.slice(0, 4))
    await owner.api.litter.savePuppy.mutate({ litterId, puppyId: null, puppy: { ...puppy, chipDigits: '' } });
  const { id } = await owner.api.setup.create.mutate({
    litterId,
    sheetId,
    input: { name: 'Eight weeks', heldOn: '2026-09-12', medium: 'table', callLink: '', callNumber: '', tableNote: '' },
  });
  const panel: SeatInput[] = [
    { label: 'mentor', kind: 'live', leads: false, picks: false, interest: '' },
    { label: 'photographer', kind: 'photographs', leads: false, picks: false, interest: '' },
    { label: 'co-owner', kind: 'hands', leads: false, picks: true, interest: '' },
  ];
  const links: Record<string, string> = {};
  for (const seat of panel) {
    const { id: seatId } = await owner.api.setup.saveSeat.mutate({ id, seatId: null, seat });
    links[seat.label] = `${owner.url}/join#${(await owner.api.setup.invite.mutate({ id, seatId })).token}`;
  }
  return { id, links };
}

let running: App | null = null;
const app = (): App => {
  if (!running) throw new Error('the app is not running');
  return running;
};

test.beforeAll(async () => {
  running = await startApp();
});

test.afterEach(closePages);

test.afterAll(async () => {
  await running?.[Symbol.asyncDispose]();
});

async function join(page: Page, link: string | undefined): Promise<void> {
  await page.goto(link ?? '');
  await page.getByRole('button', { name: 'Join on this device' }).click();
  await page.waitForURL(/\/score\?id=/);
  await page.getByRole('button', { name: 'Start scoring' }).click();
}

/** Puppies that nobody could tell apart for sure: a close call. */
const keyFor = (seat: number, puppy: number) => (question: string) =>
  String(/length|Topline|Neck|Leg/i.test(question) ? ((seat + puppy) % 3) - 1 : 4 + ((seat * 2 + puppy) % 3));

test('BL1, LV1, LV2: a whole day up to the board, owner and three seats, one offline for two puppies, one late', async ({
  browser,
}) => {
  const [owner, mentor, photographer, coOwner] = [
    await telephone(browser),
    await telephone(browser),
    await telephone(browser),
    await telephone(browser),
  ];
  await owner.page.goto(app().ownerLink ?? '');
  await owner.page.getByRole('button', { name: 'Join on this device' }).click();
  await owner.page.waitForURL(`${app().url}/`);
  const api = await clientOf(app(), owner.context);
  const { id, links } = await prepare(api);
  await owner.page.goto(`${app().url}/setup?id=${id}`);
  await owner.page.getByRole('checkbox', { name: /^I have read these/ }).check();
  await owner.page.getByRole('checkbox', { name: /^Open without the agreement of co-owner/ }).check();
  await owner.page.getByRole('button', { name: 'Open the round' }).click();
  await owner.page.getByRole('button', { name: 'Open it now' }).click();
  await expect.poll(async () => (await api.api.evaluation.get.query({ id })).round?.state).toBe('open');

  await owner.page.goto(`${app().url}/score?id=${id}`);
  await owner.page.getByRole('button', { name: 'Start scoring' }).click();
  await join(mentor.page, links['mentor']);
  await join(photographer.page, links['photographer']);

  // The table moves on and every device follows; the photographer is in a dead corner for two puppies.
  for (const [place, name] of names.entries()) {
    if (place === 1) await photographer.context.setOffline(true);
    if (place === 2) await join(coOwner.page, links['co-owner']);
    await scorePuppy(owner.page, name, keyFor(0, place));
    await scorePuppy(mentor.page, name, keyFor(1, place));
    if (place > 0) {
      await photographer.page.getByRole('button', { name: 'List' }).click();
      await photographer.page
        .getByRole('button', { name: new RegExp(`^${name}`) })
        .first()
        .click();
    }
    await scorePuppy(photographer.page, name, keyFor(2, place));
    if (place === 1) await expect(photographer.page.getByText(/only on this phone/).first()).toBeVisible();
    if (place >= 2) await scorePuppy(coOwner.page, name, keyFor(3, place));
    if (place === 2) {
      await expect(photographer.page.getByText(/no link since \d\d:\d\d/).first()).toBeVisible();
      await photographer.context.setOffline(false);
      await expect(photographer.page.getByText(/^all \d+ on the server/).first()).toBeVisible();
    }
    const next = names[place + 1];
    if (next) await owner.page.getByRole('button', { name: `Next to the table: ${next}` }).click();
    if (next) await expect(mentor.page.getByRole('heading', { name: next })).toBeVisible();
  }

  // Own choices, locks, reveal. Before it the owner's board has no number to show.
  for (const { page } of [mentor, photographer, coOwner, owner]) await toCard(page);
  await mentor.page.getByLabel('Your choice').selectOption({ index: 1 });
  await mentor.page.getByLabel('Why', { exact: true }).fill('the most even outline');
  await expect(mentor.page.getByText(/^all \d+ on the server/).first()).toBeVisible();
  for (const { page } of [mentor, photographer, coOwner]) await lockCard(page);
  await expect(api.api.board.get.query({ id })).rejects.toMatchObject({ data: { code: 'wrong-phase' } });
  await lockCard(owner.page);
  await owner.page.getByRole('button', { name: 'Reveal …' }).click();
  await owner.page.getByRole('button', { name: 'Yes, reveal for good' }).click();
  await expect(mentor.page.getByRole('link', { name: 'To the board' })).toBeVisible();

  // What they scored is a close call.
  await owner.page.goto(`${app().url}/board?id=${id}`);
  await expect(owner.page.getByText(/too close to call/i).first()).toBeVisible();
  await mentor.page.getByRole('link', { name: 'To the board' }).click();
  await expect(mentor.page.getByText(/too close to call/i).first()).toBeVisible();
});

/** The scores of the day above, as the device sends them. */
const closeCell: CellOf = ({ puppy, twoSided, seat }) => {
  const [at, place] = [
    ['breeder', 'mentor', 'photographer', 'co-owner'].indexOf(seat),
    names.findIndex((name) => name === puppy),
  ];
  return twoSided ? ((at + place) % 3) - 1 : 4 + ((at * 2 + place) % 3);
};

test('LV1, BL8: from a close call over a note, a live look and a pick with its reason to the sealed record on paper', async ({
  browser,
}) => {
  await using fresh = await startApp();
  const api = await fresh.owner();
  const { id, links } = await prepare(api);
  const seats = Object.fromEntries(Object.keys(links).map((label) => [label, testClient(fresh.url)]));
  for (const [label, seat] of Object.entries(seats))
    await seat.api.session.join.mutate({ token: new URL(links[label] ?? '').hash.slice(1) });
  await seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id });
  await playToReveal({ id, owner: api, seats, links }, closeCell);
  const pageOf = async (client: TestClient | undefined) => ({ page: await sessionPage(browser, client) });
  const [owner, mentor, coOwner] = [await pageOf(api), await pageOf(seats['mentor']), await pageOf(seats['co-owner'])];

  // A note on it, a live look answered by all who see the table.
  await owner.page.goto(`${fresh.url}/board?id=${id}`);
  await expect(owner.page.getByText(/too close to call/i).first()).toBeVisible();
  await mentor.page.goto(`${fresh.url}/board?id=${id}`);
  await mentor.page.getByLabel(/note/i).first().fill('watch them walk away');
  await mentor.page.getByRole('button', { name: 'Add the note' }).first().click();
  await expect(owner.page.getByText('watch them walk away').first()).toBeVisible();
  await owner.page
    .getByRole('link', { name: /^Prepare second looks for place/ })
    .first()
    .click();
  await expect(owner.page.getByLabel('Pair 1, one puppy')).toBeVisible();
  const leaveOut = owner.page.getByRole('button', { name: 'Leave out pair 2' });
  while (await leaveOut.isVisible()) await leaveOut.click();
  await owner.page.getByRole('button', { name: 'Open this batch of 1 pair' }).click();
  for (const { page } of [mentor, coOwner]) await page.goto(`${fresh.url}/look?id=${id}`);
  for (const { page } of [mentor, coOwner, owner]) {
    await page.getByRole('radio').first().check({ force: true });
    await page.getByRole('button', { name: 'Give my answer' }).click();
  }
  await expect.poll(async () => (await api.api.look.list.query({ id }))[0]?.state).toBe('revealed');
  expect((await api.api.look.list.query({ id }))[0]?.answers?.length).toBe(3);

  // The decision with its reason, the seal, and the record on paper.
  await owner.page.goto(`${fresh.url}/decide?id=${id}`);
  await owner.page.getByRole('radio').first().check({ force: true });
  await owner.page.getByLabel('Why').fill('the panel and I agree');
  await owner.page.getByRole('button', { name: /^Pick .* for place 1$/ }).click();
  await owner.page.getByRole('button', { name: 'Seal the record' }).click();
  await owner.page.getByRole('button', { name: 'Seal it for good' }).click();
  await expect.poll(async () => (await api.api.evaluation.get.query({ id })).phase).toBe('sealed');
  await coOwner.page.goto(`${fresh.url}/record?id=${id}`);
  await expect(coOwner.page.getByText('the panel and I agree')).toBeVisible();
  for (const format of ['A4', 'Letter'])
    expect((await coOwner.page.pdf({ format })).byteLength).toBeGreaterThan(20_000);
});

test('LV1: when the table moves, another device shows the next puppy', async ({ browser }) => {
  const follower = await telephone(browser);
  await using fresh = await startApp();
  const api = await fresh.owner();
  const litter = { name: 'Quick', breed: '', dam: '', sire: '', whelpedOn: '2026-07-18' };
  const { id: litterId } = await api.api.litter.save.mutate({ id: null, litter });
  for (const puppy of quillmarshPuppies.slice(0, 4))
    await api.api.litter.savePuppy.mutate({ litterId, puppyId: null, puppy: { ...puppy, chipDigits: '' } });
  const [sheet] = await api.api.sheet.list.query();
  const { id } = await api.api.setup.create.mutate({
    litterId,
    sheetId: sheet?.id ?? '',
    input: { name: 'Quick', heldOn: '2026-09-12', medium: 'table', callLink: '', callNumber: '', tableNote: '' },
  });
  const { id: seatId } = await api.api.setup.saveSeat.mutate({
    id,
    seatId: null,
    seat: { label: 'mentor', kind: 'live', leads: false, picks: false, interest: '' },
  });
  const { token } = await api.api.setup.invite.mutate({ id, seatId });
  await api.api.evaluation.openRound.mutate({ id });
  await join(follower.page, `${fresh.url}/join#${token}`);
  const { round, puppies } = await api.api.evaluation.get.query({ id });
  const delays: number[] = [];
  for (let move = 1; move <= 9; move += 1) {
    const showing = round?.showings[move % 4];
    const name = puppies.find((puppy) => puppy.id === showing?.puppyId)?.name ?? '';
    const shown = follower.page.evaluate(
      (wanted) =>
        new Promise<number>((resolve) => {
          const look = () =>
            [...document.querySelectorAll('h1,h2')].some((heading) => heading.textContent === wanted)
              ? resolve(Date.now())
              : requestAnimationFrame(look);
          look();
        }),
      name,
    );
    const started = Date.now();
    await api.api.evaluation.moveTable.mutate({ id, showingId: showing?.id ?? '' });
    delays.push((await shown) - started);
  }
  const median = delays.toSorted((a, b) => a - b)[4] ?? Number.POSITIVE_INFINITY;
  expect(delays).toHaveLength(9);
  holdTime('the next puppy on another device, median', median, 150);
});
