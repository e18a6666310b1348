import { expect, test, type Browser, type Page } from '@playwright/test';
import type { EntryBody } from '#lib/contract/entry';
import type { SlotInput } from '#lib/contract/setup';
import { systemRandom } from '#server/random';
import { lockCard } from '#tests/support/lockCard';
import { scoreCard, type CellOf } from '#tests/support/scoreCards';
import { lockCard as lockOnScreen, scorePuppy } from '#tests/support/scoreInBrowser';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startApp, type App } from '#tests/support/startApp';
import type { TestClient } from '#tests/support/testClient';
import { closePages, desk, sessionPage } from '#tests/support/sessionPage';

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

const labels = ['breeder', 'mentor', 'photographer', 'co-owner'] as const;
type Pages = Readonly<Record<(typeof labels)[number], Page>>;

/** Four browsers: the owner at her desk, the others by telephone, each with its own session. */
async function fourPages(browser: Browser, { seats }: Quillmarsh): Promise<Pages> {
  const { mentor, photographer } = seats;
  return {
    breeder: await sessionPage(browser, owner, { viewport: desk }),
    mentor: await sessionPage(browser, mentor),
    photographer: await sessionPage(browser, photographer),
    'co-owner': await sessionPage(browser, seats['co-owner']),
  };
}

const all = (pages: Pages) => labels.map((label) => pages[label]);
const closeAll = async (pages: Pages) => {
  for (const page of all(pages)) await page.context().close();
};

/** Fern and Moss scored alike by every seat and first, the others behind by steps; the seats differ by a little that repeats. */
const closeLitter: CellOf = ({ puppy, criterion, twoSided, seat }) => {
  const merit = { Fern: 1, Moss: 1, Sorrel: 0, Sedge: -1, Yarrow: -2 }[puppy] ?? 0;
  const own = merit === 1 ? 0 : puppy.charCodeAt(0);
  const wobble = ((criterion.length * 5 + seat.length + own) % 3) - 1;
  return twoSided ? Math.max(-3, Math.min(3, 1 - merit + wobble)) : Math.max(1, Math.min(7, 4 + merit + wobble));
};

const keep = { seatId: null, purpose: 'keep', sex: 'any', condition: '', byWhen: '', ifFails: '' } as const;

type SlotsOf = (ids: { readonly breeder: string; readonly coOwner: string }) => readonly SlotInput[];

/** Saves the pick order, and how many batches of looks are agreed; the parties are asked again by that. */
async function agreeOn({ id }: Quillmarsh, slotsOf: SlotsOf, lookBatches = 3): Promise<void> {
  const setup = await owner.api.setup.get.query({ id });
  const seat = (label: string) => setup.seats.find((one) => one.label === label)?.id ?? '';
  const weights = Object.fromEntries(setup.sheet.criteria.map(({ key }) => [key, 1]));
  await owner.api.setup.save.mutate({
    id,
    input: {
      name: setup.name,
      heldOn: setup.heldOn,
      medium: setup.medium,
      callLink: '',
      callNumber: '',
      tableNote: '',
    },
    sheetId: setup.sheetId,
    purposes: [
      { key: 'keep', weights },
      { key: 'companion', weights },
    ],
    slots: [...slotsOf({ breeder: seat('breeder'), coOwner: seat('co-owner') })],
    order: setup.order,
    plan: { ...setup.plan, lookBatches },
  });
}

/** Every seat scores and locks; `more` is said before the locks. */
async function playOn({ id, seats }: Quillmarsh, more: () => Promise<void> = () => Promise.resolve()): Promise<void> {
  const clients = [...Object.values(seats), owner];
  for (const client of clients) await scoreCard(client, id, closeLitter);
  await more();
  for (const client of clients) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
}

async function say(
  client: TestClient,
  id: string,
  { puppy, body }: { readonly puppy: string; readonly body: EntryBody },
): Promise<void> {
  const { puppies, round } = await client.api.evaluation.get.query({ id });
  const subject =
    round?.showings.find((showing) => showing.puppyId === puppies.find(({ name }) => name === puppy)?.id)?.id ?? '';
  const [outcome] = await client.api.card.submit.mutate({
    id,
    entries: [{ id: systemRandom.id(), subject, counter: 2, madeAt: 2, body }],
  });
  expect(outcome?.status).toBe('applied');
}

const goTo = (page: Page, where: string, id: string) => page.goto(`${app.url}/${where}?id=${id}`);

/** Answers every pair of the open batch the same way, from the screen. */
async function answerAll(page: Page, pairs: number): Promise<void> {
  for (let pair = 0; pair < pairs; pair += 1) {
    await page.getByRole('radio', { name: 'I cannot separate them' }).check({ force: true });
    await page.getByRole('button', { name: 'Give my answer' }).click();
    if (pair + 1 < pairs) await page.getByRole('button', { name: /^Next pair: / }).click();
  }
}

test('BL8, ST4: a tie goes from its flag through a batch of looks by several seats to a declared preference and the seal', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner, { puppies: 5 });
  const { id } = day;
  await agreeOn(
    day,
    ({ breeder, coOwner }) => [
      { ...keep, taker: 'Quillmarsh', seatId: breeder },
      { ...keep, taker: 'Co-owner', seatId: coOwner, purpose: 'companion' },
    ],
    1,
  );
  await day.seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id });
  await owner.api.evaluation.openRound.mutate({ id });
  await playOn(day);
  const pages = await fourPages(browser, day);
  const { breeder, mentor, photographer, 'co-owner': coOwner } = pages;

  await goTo(breeder, 'board', id);
  await expect(
    breeder
      .getByRole('article', { name: 'Place 1' })
      .getByRole('heading', { name: /a close call: .*Fern and .*Moss|a close call: .*Moss and .*Fern/ }),
  ).toBeVisible();
  await breeder.getByRole('link', { name: 'Prepare second looks for place 1' }).click();
  await expect(
    breeder.getByText(/is the right one in \d+ of 100 readings\..*one batch may bring more than that, or nothing/),
  ).toBeVisible();
  await expect(breeder.getByText('0 of 1 agreed batches used for this place.')).toBeVisible();
  const pairs = await breeder.getByLabel(/^Pair \d, one puppy$/).count();
  await breeder.getByRole('button', { name: /^Open this batch of \d pairs?$/ }).click();

  for (const page of [mentor, photographer, coOwner]) await goTo(page, 'look', id);
  await expect(photographer.getByText(/sees photographs only/)).toBeVisible();
  await expect(photographer.getByRole('radio')).toHaveCount(0);
  await answerAll(mentor, pairs);
  await answerAll(coOwner, pairs);
  await expect(mentor.getByText(/^On the server: you cannot separate them/)).toBeVisible();
  await expect(mentor.getByText(/Closed second looks/)).toHaveCount(0);
  await answerAll(breeder, pairs);
  for (const page of all(pages)) await expect(page.getByText(/: 3 cannot separate them\.$/).first()).toBeVisible();
  await expect(
    breeder
      .getByText(
        /^After one batch of second looks this place is not settled between|lie within half a point of each other/,
      )
      .first(),
  ).toBeVisible();

  // A look for the co-owner's own place: an interested seat is told why it does not answer.
  const { slots, puppies } = await owner.api.evaluation.get.query({ id });
  const named = (name: string) => puppies.find((one) => one.name === name)?.id ?? '';
  const batch = await owner.api.look.open.mutate({
    id,
    slotId: slots[1]?.id ?? '',
    medium: 'photographs',
    pairs: [{ firstPuppyId: named('Sorrel'), secondPuppyId: named('Sedge') }],
  });
  await expect(coOwner.getByText(/declared an interest \(second pick\), so the others answer/)).toBeVisible();
  await expect(
    photographer.getByText(/From photographs, the same view of both: (Sorrel|Sedge) on the left/),
  ).toBeVisible();
  await owner.api.look.answer.mutate({
    id,
    answer: { id: systemRandom.id(), lookId: batch.lookIds[0] ?? '', choice: 'tie', criterion: null, madeAt: 1 },
  });
  await owner.api.look.close.mutate({ id, batchId: batch.id });

  await goTo(breeder, 'board', id);
  await breeder
    .getByRole('link', { name: /^(Not settled: decide place 1|Hardly apart: decide place 1 by preference)$/ })
    .click();
  for (const page of [mentor, photographer, coOwner]) await goTo(page, 'decide', id);
  await breeder.getByLabel(/^This is a preference/).check();
  await breeder.getByRole('radio', { name: /^Moss/ }).check();
  await breeder.getByLabel('Why').fill('his dam’s shoulder');
  await breeder.getByRole('button', { name: 'Pick Moss for place 1' }).click();
  for (const page of all(pages))
    await expect(page.getByText(/Declared a preference between puppies the scores do not tell apart/)).toBeVisible();
  await coOwner.getByRole('radio', { name: /^Fern/ }).check();
  await coOwner.getByRole('button', { name: 'Pick Fern for place 2' }).click();
  await breeder.getByRole('button', { name: 'Seal the record' }).click();
  await breeder.getByRole('button', { name: 'Seal it for good' }).click();
  for (const page of all(pages)) await expect(page.getByText('The record is sealed', { exact: false })).toBeVisible();
  const { decisions } = await owner.api.decision.get.query({ id });
  expect(decisions.map(({ puppyId, preference }) => [puppyId, preference])).toEqual([
    [named('Moss'), true],
    [named('Fern'), false],
  ]);
  await closeAll(pages);
});

test('SA1, LV1: a party reads and confirms the pick order, a change asks again, and a hold that falls in the middle opens a place to every seat', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner, { puppies: 5 });
  const { id } = day;
  await agreeOn(day, ({ breeder, coOwner }) => [
    { ...keep, taker: 'Quillmarsh', seatId: breeder },
    { ...keep, taker: 'Co-owner', seatId: coOwner, sex: 'bitch', byWhen: 'ten weeks', ifFails: 'the next bitch' },
    { ...keep, taker: 'A family', purpose: 'companion' },
  ]);
  const pages = await fourPages(browser, day);
  const { breeder, mentor, 'co-owner': coOwner } = pages;
  await goTo(breeder, 'setup', id);
  await coOwner.goto(app.url);
  const order = coOwner.getByRole('region', { name: 'The pick order' });
  await expect(order.getByText('Place 2: Co-owner takes a bitch, for a show or breeding keep.')).toBeVisible();
  await expect(order.getByText('It comes after the breeder’s own keep, place 1.')).toHaveCount(2);
  for (const term of ['To be chosen by: ten weeks.', 'If the pick fails a check: the next bitch.'])
    await expect(order.getByText(term)).toBeVisible();
  const parties = breeder.getByRole('list', { name: 'Who has agreed to the pick order' });
  await expect(parties).toHaveText('co-owner: has not agreed to the order as saved');
  await coOwner.getByRole('button', { name: 'I agree to this pick order' }).click();
  await expect(order.getByText('You have confirmed this pick order.', { exact: false })).toBeVisible();
  await expect(parties).toHaveText('co-owner: has agreed to the order as saved');

  await breeder.getByRole('group', { name: 'Place 2' }).getByLabel('Chosen by when').fill('twelve weeks');
  await expect(breeder.getByText(/saving it asks every one of them again/)).toBeVisible();
  await breeder.getByRole('button', { name: 'Save the set-up' }).click();
  await expect(order.getByText('It was changed after you confirmed it, so you are asked again.')).toBeVisible();
  await expect(
    order.getByRole('listitem').filter({ hasText: 'Changed since you confirmed.' }).filter({ hasText: 'twelve weeks' }),
  ).toHaveCount(1);
  await expect(order.getByText('Changed since you confirmed.')).toHaveCount(1);
  await breeder.getByRole('checkbox', { name: /^I have read these/ }).check();
  await expect(breeder.getByText('Not agreed to the pick order yet: co-owner')).toBeVisible();
  await expect(breeder.getByRole('button', { name: 'Open the round' })).toBeDisabled();
  const without = breeder.getByRole('checkbox', { name: /^Open without the agreement of co-owner/ });
  await without.check();
  await expect(breeder.getByRole('button', { name: 'Open the round' })).toBeEnabled();
  await without.uncheck();
  await coOwner.getByRole('button', { name: 'I agree to this pick order' }).click();
  await breeder.getByRole('button', { name: 'Open the round' }).click();
  await breeder.getByRole('button', { name: 'Open it now' }).click();
  await expect(breeder.getByText(/^The round is open/)).toBeVisible();

  await playOn(day, () =>
    say(owner, id, { puppy: 'Fern', body: { kind: 'check', check: 'bite', answer: 'level', detail: '' } }),
  );
  for (const page of all(pages)) await goTo(page, 'decide', id);
  await expect(
    mentor.getByText(/If it falls, places 1 and 2 open to Fern\..*Fern is ahead of .* in .* of 100 readings/),
  ).toBeVisible();
  await expect(breeder.getByText(/Fern: held by bite/)).toBeVisible();
  await breeder.getByRole('radio', { name: /^Moss/ }).check();
  await breeder.getByRole('button', { name: 'Pick Moss for place 1' }).click();
  await expect(coOwner.getByText('Place 2 is up: Co-owner. You can enter the pick.')).toBeVisible();
  await expect(coOwner.getByRole('radio', { name: /^Fern/ })).toHaveCount(0);
  const vet = breeder.getByRole('form', { name: 'Veterinary answer: Fern, bite' });
  await vet.getByLabel('What the veterinary surgeon said').fill('level, may close with the second teeth');
  await vet.getByLabel('Who said it').fill('the practice, 14 September');
  await vet.getByRole('radio', { name: /^Cleared/ }).check();
  await vet.getByRole('button', { name: 'Record a veterinary answer' }).click();
  for (const page of all(pages))
    await expect(page.getByText('“level, may close with the second teeth”', { exact: true })).toBeVisible();
  await coOwner.getByRole('radio', { name: /^Fern/ }).check();
  await coOwner.getByRole('button', { name: 'Pick Fern for place 2' }).click();
  for (const page of all(pages)) await expect(page.getByText(/^Place 3 is up: A family\./)).toBeVisible();
  await closeAll(pages);
});

test('BL1, LV1: a second round asks only what was ticked, blind again, and its reveal shows every seat each question before and after', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner, { puppies: 4 });
  const { id, seats } = day;
  await owner.api.evaluation.openRound.mutate({ id });
  await playOn(day);
  const pages = await fourPages(browser, day);
  const { breeder, mentor, photographer, 'co-owner': coOwner } = pages;
  await goTo(breeder, 'board', id);
  await breeder.getByText('A second round on these questions').click();
  const form = breeder.locator('details', { hasText: 'A second round on these questions' });
  for (const tick of await form.getByRole('checkbox').all()) await tick.uncheck();
  await expect(form.getByText('Tick or add at least one question to open a second round.')).toBeVisible();
  await form.getByLabel('Puppy to ask about').selectOption('Moss');
  await form.getByLabel('Criterion to ask about').selectOption('Shoulder layback');
  await form.getByRole('button', { name: 'Add this question' }).click();
  await form.getByRole('button', { name: 'Open a second round: 1 question' }).click();
  await form.getByRole('button', { name: 'Open it now' }).click();

  for (const page of [mentor, coOwner]) await goTo(page, 'board', id);
  await expect(mentor.getByText(/A second round is open\./)).toBeVisible();
  await expect(mentor.getByRole('heading', { name: 'Who stands where' })).toBeVisible();
  await goTo(photographer, 'decide', id);
  await expect(photographer.getByText('A second round is under way: picks wait until it is revealed.')).toBeVisible();
  await mentor.getByRole('link', { name: 'Score the questions that are asked again' }).click();
  await expect(mentor.getByRole('list', { name: 'Asked again' })).toHaveText('Moss: shoulder layback');
  await mentor.getByRole('button', { name: 'Start the second round' }).click();
  await expect(mentor.getByText('1 of 1', { exact: true }).first()).toBeVisible();
  await expect(mentor.getByText('Nothing said yet')).toBeVisible();
  await expect(mentor.locator('[data-key][aria-pressed="true"]')).toHaveCount(0);
  await scorePuppy(mentor, 'Moss', () => '7');
  await expect(mentor.getByText('1 answer on the server')).toBeVisible();
  await mentor.getByRole('button', { name: 'Your card', exact: true }).click();
  await expect(mentor.getByRole('heading', { name: 'Your own choice' })).toHaveCount(0);
  await lockOnScreen(mentor);
  await expect(mentor.getByRole('heading', { name: 'Your card is locked' })).toBeVisible();
  await expect(coOwner.getByText(/Not locked yet: breeder, photographer and co-owner\./)).toBeVisible();

  const moss = (await owner.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  for (const client of [seats['photographer'], seats['co-owner'], owner]) {
    await client?.api.card.submit.mutate({
      id,
      entries: [
        {
          id: systemRandom.id(),
          subject: moss,
          counter: 1,
          madeAt: 1,
          body: { kind: 'score', criterion: 'shoulder-layback', value: 6, cannotJudge: false },
        },
      ],
    });
    await lockCard(client, id);
  }
  await goTo(breeder, 'score', id);
  await breeder.getByRole('button', { name: 'Reveal …' }).click();
  await breeder.getByRole('button', { name: 'Yes, reveal for good' }).click();
  for (const page of all(pages)) {
    await goTo(page, 'board', id);
    const row = page
      .getByRole('table', { name: /before and after/ })
      .getByRole('row', { name: /Moss, shoulder layback/ });
    await expect(row).toContainText('4 seats');
    await expect(row.getByRole('cell').nth(1)).toHaveText('1');
  }
  const { second } = await owner.api.board.get.query({ id });
  expect(second?.cells.map(({ criterion, after }) => [criterion, after])).toEqual([['shoulder-layback', 1]]);
  await closeAll(pages);
});
