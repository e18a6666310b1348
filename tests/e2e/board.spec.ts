import { expect, test, type Page } from '@playwright/test';
import type { EntryBody } from '#lib/contract/entry';
import { checkKeys } from '#lib/sheet/check';
import { systemRandom } from '#server/random';
import { lockCard } from '#tests/support/lockCard';
import { playToReveal, scoreCard, type CellOf } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startApp, type App } from '#tests/support/startApp';
import type { TestClient } from '#tests/support/testClient';
import { axeFaultsInBothThemes } from '#tests/support/axeFaults';
import { closePages, desk, phone, sessionPage } from '#tests/support/sessionPage';

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

/** Fern, Moss and Sorrel close together and first, the others behind by steps; the seats differ by a little that repeats. */
const closeLitter: CellOf = ({ puppy, criterion, twoSided, seat }) => {
  const merit = { Fern: 1, Moss: 1, Sorrel: 1, Sedge: -1, Yarrow: -2 }[puppy] ?? 0;
  const wobble = ((criterion.length * 5 + seat.length + puppy.charCodeAt(0)) % 3) - 1;
  return twoSided ? Math.max(-3, Math.min(3, 1 - merit + wobble)) : Math.max(1, Math.min(7, 4 + merit + wobble));
};

async function seeded(): Promise<Quillmarsh> {
  const quillmarsh = await seedQuillmarsh(owner, { puppies: 5 });
  const { id } = quillmarsh;
  const setup = await owner.api.setup.get.query({ id });
  const coOwner = setup.seats.find((seat) => seat.label === 'co-owner');
  const weights = Object.fromEntries(setup.sheet.criteria.map(({ key }) => [key, 1]));
  const slot = { seatId: null, sex: 'any', condition: '', byWhen: '', ifFails: '' } as const;
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
    slots: [
      { ...slot, taker: 'Quillmarsh', purpose: 'keep' },
      { ...slot, taker: 'Co-owner', seatId: coOwner?.id ?? null, purpose: 'companion' },
    ],
    order: setup.order,
    plan: setup.plan,
  });
  await quillmarsh.seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id });
  return quillmarsh;
}

/** One more answer of a seat, on its card for one puppy. */
async function answer(
  client: TestClient,
  id: string,
  { puppy, body }: { readonly puppy: string; readonly body: EntryBody },
): Promise<void> {
  const { puppies, round } = await client.api.evaluation.get.query({ id });
  const puppyId = puppies.find(({ name }) => name === puppy)?.id;
  const subject = round?.showings.find((showing) => showing.puppyId === puppyId)?.id ?? '';
  const [outcome] = await client.api.card.submit.mutate({
    id,
    entries: [{ id: systemRandom.id(), subject, counter: 2, madeAt: 2, body }],
  });
  expect(outcome?.status).toBe('applied');
}

/** Revealed: two purposes, two places, a bite that holds Fern, a note, an overall impression. */
async function revealed(): Promise<Quillmarsh> {
  const quillmarsh = await seeded();
  const { id, seats } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  const clients = [owner, ...Object.values(seats)];
  for (const client of clients) await scoreCard(client, id, closeLitter);
  await answer(owner, id, { puppy: 'Fern', body: { kind: 'check', check: 'bite', answer: 'level', detail: '1 mm' } });
  await answer(owner, id, { puppy: 'Moss', body: { kind: 'overall', value: 6, cannotJudge: false } });
  await answer(owner, id, {
    puppy: 'Sedge',
    body: { kind: 'note', criterion: null, text: 'stood only at the third try' },
  });
  for (const client of clients.toReversed()) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  return quillmarsh;
}

let one: Promise<Quillmarsh> | null = null;
/** The evaluation that tests look at in turn; the last of them seals it. A test that runs alone makes its own. */
const shared = (): Promise<Quillmarsh> => (one ??= revealed());

const at = (page: 'board' | 'look' | 'decide' | 'record', id: string) => `${app.url}/${page}?id=${id}`;

const mainText = (page: Page) => page.getByRole('main').innerText();

test('BL1: before the reveal the board says what it waits for, and holds no figure, for a seat and for the owner', async ({
  browser,
}) => {
  const { id, seats } = await seeded();
  await owner.api.evaluation.openRound.mutate({ id });
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  await scoreCard(mentor, id, closeLitter);
  await lockCard(mentor, id);
  for (const client of [mentor, owner]) {
    const page = await sessionPage(browser, client);
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(at('board', id));
    await expect(page.getByText('Not locked yet: breeder, photographer and co-owner.')).toBeVisible();
    // The record's head stands there before the reveal too: of fixed length, and the same for everybody.
    expect((await mainText(page)).replace(/Record: line \d+, [0-9a-f]{12}\./, '')).not.toMatch(/\d/);
    expect(asked.filter((url) => /board\.|decision\.|look\./.test(url))).toEqual([]);
    await expect(page.getByRole('img')).toHaveCount(0);
    for (const other of ['look', 'decide', 'record'] as const) {
      await page.goto(at(other, id));
      await expect(page.getByText(/after the reveal|not revealed/).first()).toBeVisible();
    }
  }
});

test('ST4: the board says its sentence before its picture, the picture has its table, and no chance is ever 0 or 100', async ({
  browser,
}) => {
  const { id } = await shared();
  const page = await sessionPage(browser, owner, { viewport: desk });
  await page.goto(at('board', id));
  const board = await owner.api.board.get.query({ id });
  const keep = board.purposes.find(({ key }) => key === 'keep');
  await expect(page.getByText(keep?.sentence ?? 'no sentence')).toBeVisible();
  const label =
    (await page.getByRole('img', { name: keep?.sentence ?? 'no sentence' }).getAttribute('aria-label')) ?? '';
  for (const name of ['Fern', 'Moss', 'Sorrel', 'Sedge', 'Yarrow']) expect(label).toContain(name);
  await page.getByText('The same as a table').first().click();
  const ranks = page.getByRole('table', { name: /Chance of each rank/ });
  await expect(ranks.getByRole('row')).toHaveCount(6);
  const cells = await ranks.getByRole('cell').allInnerTexts();
  expect(cells.length).toBe(25);
  for (const cell of cells) expect(cell).toMatch(/^(<1|≥99|[1-9]|[1-9]\d)$/);
  const shown = await mainText(page);
  expect(shown).not.toMatch(/\b(0|100) of 100\b/);

  // Purposes are tabs: the keyboard reaches the second.
  await page.getByRole('tab', { name: 'Show or breeding keep' }).focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.getByRole('tab', { name: 'Companion home' })).toBeFocused();
  await expect(page.getByRole('tab', { name: 'Companion home' })).toHaveAttribute('aria-selected', 'true');

  // What a result rests on is always there (BL5).
  for (const line of board.blindTo) await expect(page.getByText(line)).toBeVisible();
  await expect(page.getByText(/level.*1 mm \(breeder\).*Holds a show or breeding keep/)).toBeVisible();
});

test('ST1: the drawer names every coefficient with its interval or its reason, and gives the focus back', async ({
  browser,
}) => {
  const { id } = await shared();
  const page = await sessionPage(browser, owner, { viewport: desk });
  await page.goto(at('board', id));
  const opener = page.getByRole('button', { name: 'Coefficients' });
  await opener.click();
  const drawer = page.getByRole('dialog', { name: 'Coefficients of agreement' });
  const table = drawer.getByRole('table', { name: 'The whole sheet' });
  for (const form of ['ICC(1,1)', 'ICC(2,1)', 'ICC(3,1)', 'ICC(1,k)', 'ICC(2,k)', 'ICC(3,k)'])
    await expect(table.getByText(form)).toBeVisible();
  await expect(table.getByText('Krippendorff’s α, interval')).toBeVisible();
  for (const cell of await table.getByRole('row').locator('td:nth-child(2)').allInnerTexts())
    expect(cell).toMatch(/^−?\d\.\d\d(, no interval| \(.+ to .+\))$|^No figure: /);
  expect(await drawer.innerText()).not.toMatch(/NaN|undefined|null/);
  await page.keyboard.press('Escape');
  await expect(drawer).toHaveCount(0);
  await expect(opener).toBeFocused();
});

test('Equal scores stay apart in a strip, and a criterion opens to every puppy with its table', async ({ browser }) => {
  const { id } = await shared();
  const page = await sessionPage(browser, owner, { viewport: desk });
  await page.goto(at('board', id));
  const strips = page.getByRole('region', { name: 'How far the panel agrees' }).getByRole('img');
  await expect(strips.first()).toBeVisible();
  const overlaps = await strips.evaluateAll((all) =>
    all.flatMap((strip) => {
      const places = [...strip.querySelectorAll('g[transform]')].map((mark) => mark.getAttribute('transform') ?? '');
      return new Set(places).size === places.length ? [] : [strip.getAttribute('aria-label')];
    }),
  );
  expect(overlaps).toEqual([]);
  await page.getByRole('button', { name: 'Shoulder layback for all puppies' }).click();
  await page.getByText('The same as a table').nth(1).click();
  const table = page.getByRole('table', { name: 'Shoulder layback: scores by seat' });
  await expect(table.getByRole('row')).toHaveCount(6);
  await expect(table.getByRole('columnheader')).toHaveText(['Puppy', 'breeder', 'mentor', 'photographer', 'co-owner']);
});

test('BL8: a live look shows a seat nothing of the others, tells why a seat may not answer, and opens its answers when the last has come', async ({
  browser,
}) => {
  const { id, seats } = await shared();
  const { mentor, photographer } = seats;
  const coOwner = seats['co-owner'];
  if (!mentor || !photographer || !coOwner) throw new Error('a seat is missing');
  const [ownerPage, mentorPage, otherPage] = [
    await sessionPage(browser, owner, { viewport: desk }),
    await sessionPage(browser, mentor),
    await sessionPage(browser, photographer),
  ];
  await ownerPage.goto(at('board', id));
  await ownerPage
    .getByRole('link', { name: /^Prepare second looks for place/ })
    .first()
    .click();
  const one = ownerPage.getByLabel('Pair 1, one puppy');
  await expect(one).toBeVisible();
  const leaveOut = ownerPage.getByRole('button', { name: 'Leave out pair 2' });
  while (await leaveOut.isVisible()) await leaveOut.click();
  const selected = (label: string) => ownerPage.getByLabel(label).locator('option:checked').innerText();
  const pair = [await selected('Pair 1, one puppy'), await selected('Pair 1, the other')];
  await ownerPage.getByRole('button', { name: 'Open this batch of 1 pair' }).click();
  await mentorPage.goto(at('look', id));
  await expect(mentorPage.getByText(`${pair[0]} on the left, ${pair[1]} on the right`)).toBeVisible();
  await otherPage.goto(at('look', id));
  await expect(otherPage.getByText(/sees photographs only/)).toBeVisible();
  await expect(otherPage.getByRole('radio')).toHaveCount(0);

  // The co-owner answers; what the mentor reads does not change by a letter.
  const before = await mainText(mentorPage);
  const [look] = await coOwner.api.look.list.query({ id });
  await coOwner.api.look.answer.mutate({
    id,
    answer: { id: systemRandom.id(), lookId: look?.id ?? '', choice: 'first', criterion: null, madeAt: 1 },
  });
  await mentorPage.reload();
  await expect(mentorPage.getByText('You have not answered yet.')).toBeVisible();
  expect(await mainText(mentorPage)).toBe(before);

  await expect(ownerPage.getByRole('button', { name: 'Close the look now' })).toBeDisabled();
  await mentorPage.getByRole('radio', { name: pair[1] ?? '' }).check({ force: true });
  await mentorPage.getByLabel(/What decided it/).selectOption({ label: 'Neck' });
  await mentorPage.getByRole('button', { name: 'Give my answer' }).click();
  await expect(mentorPage.getByText(`On the server: ${pair[1]}, decided by neck.`)).toBeVisible();
  await mentorPage.getByRole('radio', { name: 'I cannot separate them' }).check({ force: true });
  await mentorPage.getByRole('button', { name: 'Change my answer' }).click();
  await expect(mentorPage.getByText(/On the server: you cannot separate them/)).toBeVisible();

  await ownerPage.getByRole('radio', { name: pair[0] ?? '' }).check({ force: true });
  await ownerPage.getByRole('button', { name: 'Give my answer' }).click();
  for (const page of [ownerPage, mentorPage, otherPage]) {
    await expect(
      page.getByText(`Second look at ${pair[0]} and ${pair[1]}: 2 for ${pair[0]}, 1 cannot separate them.`),
    ).toBeVisible();
    await expect(page.getByText('mentor: cannot separate them, decided by neck')).toBeVisible();
  }
  await ownerPage.getByLabel('For which place').selectOption({ index: 0 });
  await ownerPage.getByLabel('Pair 1, one puppy').selectOption(pair[0] ?? '');
  await ownerPage.getByLabel('Pair 1, the other').selectOption(pair[1] ?? '');
  await expect(ownerPage.getByText(/this time they change places/).first()).toBeVisible();
});

test('SC2: a note that does not get through keeps its words, and arrives once', async ({ browser }) => {
  const { id, seats } = await shared();
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const [page, ownerPage] = [await sessionPage(browser, mentor), await sessionPage(browser, owner)];
  await ownerPage.goto(at('board', id));
  await page.goto(at('board', id));
  const note = page.getByLabel(/^Your note on place/).first();
  await note.fill('watch them walk away');
  await page.route('**/api/trpc/board.addNote*', (route) => route.abort());
  await page.getByRole('button', { name: 'Add the note' }).first().click();
  await expect(page.getByText('No link to the server.')).toBeVisible();
  await expect(note).toHaveValue('watch them walk away');
  await page.unroute('**/api/trpc/board.addNote*');
  await page.getByRole('button', { name: 'Add the note' }).first().click();
  await expect(ownerPage.getByText('watch them walk away')).toHaveCount(1);
  await expect(note).toHaveValue('');
});

async function openLook(id: string): Promise<void> {
  const { puppies, slots } = await owner.api.evaluation.get.query({ id });
  const [, second, third] = puppies;
  await owner.api.look.open.mutate({
    id,
    slotId: slots[0]?.id ?? '',
    medium: 'table',
    pairs: [{ firstPuppyId: second?.id ?? '', secondPuppyId: third?.id ?? '' }],
  });
}

async function closeLook(id: string): Promise<void> {
  const open = (await owner.api.look.list.query({ id })).find(({ state }) => state === 'open');
  await owner.api.look.answer.mutate({
    id,
    answer: { id: systemRandom.id(), lookId: open?.id ?? '', choice: 'tie', criterion: null, madeAt: 1 },
  });
  await owner.api.look.close.mutate({ id, batchId: open?.batchId ?? '' });
}

/** Open while the four pages are looked at. */
let look: Promise<void> | null = null;

for (const where of ['board', 'look', 'decide', 'record'] as const) {
  test(`The ${where} after the reveal, a look being open, is free of faults axe can find, light and dark, on phone and desk, and never wider than its screen`, async ({
    browser,
  }) => {
    const { id } = await shared();
    await (look ??= openLook(id));
    const page = await sessionPage(browser, owner);
    await page.goto(at(where, id));
    await expect(page.getByRole('heading', { level: 2 }).nth(where === 'look' ? 0 : 1)).toBeVisible();
    for (const viewport of [phone, desk]) {
      await page.setViewportSize(viewport);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
        `${where} ${viewport.width}`,
      ).toBeLessThanOrEqual(0);
      expect(await axeFaultsInBothThemes(page), `${where} ${viewport.width}`).toEqual([]);
    }
    // An open look keeps the record from being sealed.
    if (where === 'record') await closeLook(id);
  });
}

test('SA1, LV1: a hold keeps a puppy out until a veterinary answer is written down; picks and the seal reach every seat live', async ({
  browser,
}) => {
  const { id, seats } = await shared();
  const coOwner = seats['co-owner'];
  if (!coOwner) throw new Error('no co-owner');
  const [page, seatPage] = [await sessionPage(browser, owner, { viewport: desk }), await sessionPage(browser, coOwner)];
  await page.goto(at('decide', id));
  await seatPage.goto(at('decide', id));
  await expect(page.getByText(/Fern: held by bite/)).toBeVisible();
  await expect(page.getByRole('radio', { name: /^Fern/ })).toHaveCount(0);
  await expect(seatPage.getByText('Place 1 is up: Quillmarsh. The owner enters the pick.')).toBeVisible();
  const vet = page.getByRole('form', { name: 'Veterinary answer: Fern, bite' });
  const answer = async (words: string, choice: RegExp) => {
    await vet.getByLabel('What the veterinary surgeon said').fill(words);
    await vet.getByLabel('Who said it').fill('the practice, 14 September');
    await expect(vet.getByRole('button', { name: 'Record a veterinary answer' })).toBeDisabled();
    await vet.getByRole('radio', { name: choice }).check();
    await vet.getByRole('button', { name: 'Record a veterinary answer' }).click();
    for (const one of [page, seatPage]) await expect(one.getByText(`“${words}”`, { exact: true })).toBeVisible();
  };
  await answer('not as it should be', /^Stays/);
  await expect(seatPage.getByText(/Fern: held by bite.*Veterinary answer: bite, the hold stays/)).toBeVisible();
  await expect(page.getByRole('radio', { name: /^Fern/ })).toHaveCount(0);
  await page.getByText('A later answer', { exact: true }).click();
  await answer('closes by now', /^Cleared/);
  await expect(seatPage.getByText(/Superseded: the hold stays/)).toBeVisible();

  await page.getByRole('radio', { name: /^Fern/ }).check();
  await page.getByLabel('Why').fill('her front');
  await page.getByLabel(/This is a preference/).check();
  await page.getByRole('button', { name: 'Pick Fern for place 1' }).click();
  await expect(seatPage.getByText('Decided by owner', { exact: false })).toBeVisible();
  await expect(seatPage.getByText(/Declared a preference/)).toBeVisible();

  await page.getByRole('button', { name: 'Take back the last pick: place 1, Fern' }).click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(seatPage.getByText('Place 1 is up: Quillmarsh. The owner enters the pick.')).toBeVisible();
  // The owner's page, too: what is ticked before it has heard belongs to the place that was up.
  await expect(page.getByText('Place 1 is up: Quillmarsh. You can enter the pick.')).toBeVisible();
  await page.getByRole('radio', { name: /^Moss/ }).check();
  await page.getByRole('button', { name: 'Pick Moss for place 1' }).click();

  // The co-owner enters her own pick, from her own seat.
  await seatPage.getByRole('radio', { name: /^Fern/ }).check();
  await seatPage.getByLabel('Why').fill('for the children');
  await seatPage.getByRole('button', { name: 'Pick Fern for place 2' }).click();
  await expect(page.getByText('Every place is picked.')).toBeVisible();
  await expect(seatPage.getByRole('button', { name: 'Seal the record' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Seal the record' }).click();
  await expect(page.getByText('There is no unsealing.', { exact: false })).toBeVisible();
  await page.getByRole('button', { name: 'Seal it for good' }).click();
  await expect(seatPage.getByText('The record is sealed', { exact: false })).toBeVisible();
  await expect(page.getByRole('button', { name: /Take back|Seal/ })).toHaveCount(0);
  expect((await owner.api.evaluation.get.query({ id })).phase).toBe('sealed');
});

test('ST3: the record prints on A4 and Letter with no table cut off, and says who chose what and why', async ({
  browser,
}) => {
  const quillmarsh = await seedQuillmarsh(owner, { puppies: 9 });
  const { id } = quillmarsh;
  await playToReveal(quillmarsh);
  const { slots, puppies } = await owner.api.evaluation.get.query({ id });
  const [slot, puppy] = [slots[0], puppies[0]];
  await owner.api.decision.make.mutate({
    id,
    slotId: slot?.id ?? '',
    puppyId: puppy?.id ?? '',
    unexamined: [...checkKeys],
    reason: 'steadiest of them all',
    preference: false,
  });
  await owner.api.decision.seal.mutate({ id });
  // Paper less the margins of 14 mm, at 96 pixels to the inch.
  for (const [format, millimetres] of [
    ['A4', 210],
    ['Letter', 215.9],
  ] as const) {
    const width = Math.floor(((millimetres - 28) * 96) / 25.4);
    const page = await sessionPage(browser, owner, { viewport: { width, height: 1000 } });
    await page.emulateMedia({ media: 'print' });
    await page.goto(at('record', id));
    await expect(page.getByText('steadiest of them all')).toBeVisible();
    const tables = await page.getByRole('table').evaluateAll((all) =>
      all.map((table) => ({
        name: table.querySelector('caption')?.textContent,
        right: Math.ceil(table.getBoundingClientRect().right),
      })),
    );
    expect(tables.length).toBeGreaterThan(7);
    expect(tables.filter(({ right }) => right > width)).toEqual([]);
    await expect(page.getByRole('button')).toHaveCount(0);
    const paper = await page.pdf({ format });
    expect(paper.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    // Sizes in points: ISO 216 A4 is 210 × 297 mm, Letter (ANSI A) 8.5 × 11 in.
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(paper.toString('latin1'));
    const [wide, high] = format === 'A4' ? [(210 * 72) / 25.4, (297 * 72) / 25.4] : [8.5 * 72, 11 * 72];
    expect(Math.abs(Number(box?.[1]) - wide)).toBeLessThan(1);
    expect(Math.abs(Number(box?.[2]) - high)).toBeLessThan(1);
  }
});

test('SA3: the owner sees a puppy’s note as its home will, sends its link, and the home prints it on one page', async ({
  browser,
}) => {
  const quillmarsh = await seedQuillmarsh(owner, { puppies: 3 });
  const { id } = quillmarsh;
  await playToReveal(quillmarsh);
  const [puppy] = (await owner.api.evaluation.get.query({ id })).puppies;
  for (const { id: slotId } of (await owner.api.evaluation.get.query({ id })).slots)
    await owner.api.decision.make.mutate({ id, slotId, puppyId: null, unexamined: [], reason: '', preference: false });
  await owner.api.decision.seal.mutate({ id });
  const page = await sessionPage(browser, owner);
  await page.goto(at('record', id));
  await page.getByText('Add something under the sealed record').click();
  const form = page.getByRole('form', { name: 'Addendum' });
  await form.getByLabel('What it is').selectOption('A fact is corrected');
  await form.getByLabel('Puppy').selectOption(puppy?.name ?? '');
  await form.getByLabel('What is wrong above, and what is right').fill('The mark is on the right fore.');
  await form.getByRole('button', { name: 'Add it' }).click();
  await expect(page.getByText(`${puppy?.name}: correction`)).toBeVisible();
  await page.getByLabel('How homes reach you').fill('by the gate');
  await page.getByText(`See ${puppy?.name}’s note as its home does`).click();
  await expect(page.getByText('Breeder: by the gate')).toBeVisible();
  await page.getByRole('button', { name: `Make a link for ${puppy?.name}’s home` }).click();
  await expect(page.getByRole('img', { name: `QR code of the link for ${puppy?.name}’s home` })).toBeVisible();
  const link = await page.getByRole('textbox', { name: `Link for ${puppy?.name}’s home` }).inputValue();
  const home = await sessionPage(browser, null);
  await home.goto(link);
  await expect(home.getByText('Breeder: by the gate')).toBeVisible();
  await expect(home.getByText('The mark is on the right fore.')).toBeVisible();
  expect(await axeFaultsInBothThemes(home)).toEqual([]);
  for (const format of ['A4', 'Letter'] as const) {
    const paper = (await home.pdf({ format })).toString('latin1');
    expect(paper.match(/\/Type \/Page\b(?!s)/g)).toHaveLength(1);
  }
});
