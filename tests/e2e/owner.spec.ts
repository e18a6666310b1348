import { expect, test, type Browser, type Page } from '@playwright/test';
import { systemRandom } from '#server/random';
import { toString as drawQrCode } from 'qrcode';
import { lockCard } from '#tests/support/lockCard';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startApp, type App } from '#tests/support/startApp';
import { testClient, type TestClient } from '#tests/support/testClient';
import { axeFaultsInBothThemes } from '#tests/support/axeFaults';
import { closePages, desk, sessionPage } from '#tests/support/sessionPage';

let running: App | null = null;
let signedIn: TestClient | null = null;
const app = (): App => running ?? missing('the app');
const owner = (): TestClient => signedIn ?? missing('the owner');

function missing(what: string): never {
  throw new Error(`${what} is not there`);
}

test.beforeAll(async () => {
  running = await startApp();
  signedIn = await app().owner();
});

test.afterEach(closePages);

test.afterAll(async () => {
  await running?.[Symbol.asyncDispose]();
});

const atDesk = (browser: Browser) => sessionPage(browser, owner(), { viewport: desk });

/** Waits for the page's own heading and for nothing to be on its way any more. */
async function open(page: Page, path: string, heading: string | RegExp): Promise<void> {
  await page.goto(`${app().url}${path}`);
  await expect(page.getByRole('heading', { level: 1, name: heading })).toBeVisible();
  await expect(page.getByText(/^Fetching /)).toHaveCount(0);
}

async function addPuppy(
  page: Page,
  { name, collar, mark = '' }: { readonly name: string; readonly collar: string; readonly mark?: string },
): Promise<void> {
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel('Collar', { exact: true }).selectOption(collar);
  await page.getByLabel('Second mark').fill(mark);
  await page.getByRole('button', { name: 'Save puppy' }).click();
}

async function openRound(page: Page): Promise<void> {
  await page.getByRole('checkbox', { name: /^I have read these/ }).check();
  await page.getByRole('button', { name: 'Open the round' }).click();
  await page.getByRole('button', { name: 'Open it now' }).click();
}

test('a litter: refused in words first, nothing typed lost, then puppies, collars and weights', async ({ browser }) => {
  const page = await atDesk(browser);
  await open(page, '/', 'Your desk');
  await page.getByRole('link', { name: 'New litter' }).first().click();
  await page.getByLabel('Breed').fill('Leonberger');
  await page.getByRole('button', { name: 'Save litter' }).click();
  await expect(page.getByText('A litter needs a name to go by.')).toBeVisible();
  await expect(page.getByLabel('Breed')).toHaveValue('Leonberger');
  await page.getByLabel('Name of the litter').fill('Quillmarsh winter');
  await page.getByLabel('Whelping date').fill('2026-07-18');

  await page.context().setOffline(true);
  await page.getByRole('button', { name: 'Save litter' }).click();
  await expect(page.getByText('No link to the server.')).toBeVisible();
  await expect(page.getByLabel('Name of the litter')).toHaveValue('Quillmarsh winter');
  await page.context().setOffline(false);
  await page.getByRole('button', { name: 'Save litter' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Quillmarsh winter' })).toBeVisible();

  await page.getByRole('button', { name: 'Add a puppy' }).click();
  await addPuppy(page, { name: 'Fern', collar: 'blue' });
  await expect(page.getByRole('row', { name: /Fern/ })).toContainText('blue collar');
  await page.getByLabel('Name', { exact: true }).fill('fern');
  await page.getByRole('button', { name: 'Save puppy' }).click();
  await expect(page.getByText('Another puppy of this litter has that name.')).toBeVisible();
  await expect(page.getByLabel('Name', { exact: true })).toHaveValue('fern');
  await addPuppy(page, { name: 'Moss', collar: 'blue' });
  await expect(page.getByText(/Fern and Moss both come with blue collar\. Give each a second mark/)).toBeVisible();
  await page.getByRole('button', { name: 'Done' }).click();

  await page.getByRole('button', { name: 'Weigh the litter' }).click();
  await page.getByLabel('Weighed on').fill('2026-09-10');
  await page.getByLabel('Fern, grams').fill('8 kg');
  await page.getByLabel('Moss, grams').fill('8450');
  await page.getByRole('button', { name: 'Save weights' }).click();
  await expect(page.getByText('Whole grams, 20 to 60000.')).toBeVisible();
  await expect(page.getByLabel('Moss, grams')).toHaveValue('8450');
  await page.getByLabel('Fern, grams').fill('8010');
  await page.getByRole('button', { name: 'Save weights' }).click();
  await expect(page.getByRole('img', { name: /Weight of each puppy/ })).toBeVisible();
  await page.getByText('The same as a table').click();
  const weights = page.getByRole('table', { name: 'Weights in grams' });
  await expect(weights.getByRole('row', { name: /Fern/ })).toContainText('8010');
  await expect(weights.getByRole('columnheader', { name: /^54 days/ })).toBeVisible();
  await page.context().close();
});

test('BL9: from a litter to an open round; a seat’s link is shown once with its code, works once, and a fresh one replaces it', async ({
  browser,
}) => {
  const { id: litterId } = await owner().api.litter.save.mutate({
    id: null,
    litter: { name: 'Quillmarsh spring', breed: 'Leonberger', dam: 'Gorse', sire: 'Alder', whelpedOn: '2026-07-18' },
  });
  for (const [name, collar] of [
    ['Fern', 'blue'],
    ['Moss', 'amber'],
    ['Sorrel', 'red'],
  ] as const) {
    await owner().api.litter.savePuppy.mutate({
      litterId,
      puppyId: null,
      puppy: { name, sex: 'bitch', collar, secondMark: '', chipDigits: '' },
    });
  }
  const page = await atDesk(browser);
  await open(page, `/litter?id=${litterId}`, 'Quillmarsh spring');
  await page.getByLabel('Day', { exact: true }).fill('2026-09-12');
  await expect(page.getByLabel('Name of the evaluation')).toHaveValue('Quillmarsh spring, 56 days');
  await page.getByRole('button', { name: 'Prepare the evaluation' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Quillmarsh spring, 56 days' })).toBeVisible();
  const id = new URL(page.url()).searchParams.get('id') ?? '';

  await page.getByRole('button', { name: 'Add a seat' }).click();
  await page.getByLabel('Seat', { exact: true }).fill('Breeder');
  await page.getByRole('button', { name: 'Save seat' }).click();
  await expect(page.getByText(/Another seat has that name/)).toBeVisible();
  await expect(page.getByLabel('Seat', { exact: true })).toHaveValue('Breeder');
  await page.getByLabel('Seat', { exact: true }).fill('mentor');
  await page.getByRole('button', { name: 'Save seat' }).click();

  await page.getByRole('button', { name: 'Make link for mentor' }).click();
  const first = await page.getByLabel('Link for mentor', { exact: true }).inputValue();
  await page.getByRole('button', { name: 'Make a fresh link for mentor' }).click();
  await expect(page.getByLabel('Link for mentor', { exact: true })).not.toHaveValue(first);
  const second = await page.getByLabel('Link for mentor', { exact: true }).inputValue();
  expect(second).toMatch(new RegExp(`^${app().url}/join#[A-Za-z0-9_-]{20,}$`));
  const code = page.getByRole('img', { name: 'QR code of the link for mentor' });
  const drawn = await drawQrCode(second, { type: 'svg', margin: 4, errorCorrectionLevel: 'M' });
  await expect(code).toHaveAttribute('src', `data:image/svg+xml;charset=utf-8,${encodeURIComponent(drawn)}`);
  expect(await code.evaluate((image) => image instanceof HTMLImageElement && image.naturalWidth)).toBeGreaterThan(0);

  await page.getByLabel('Address that telephones use').fill('http://192.168.1.20:3000');
  await expect(page.getByLabel('Link for mentor', { exact: true })).toHaveValue(
    second.replace(app().url, 'http://192.168.1.20:3000'),
  );

  const late = await sessionPage(browser, null);
  await late.goto(first);
  await late.getByRole('button', { name: 'Join on this device' }).click();
  await expect(late.getByText(/used or replaced/)).toBeVisible();
  await late.context().close();
  const mentor = await sessionPage(browser, null);
  await mentor.goto(second);
  await mentor.getByRole('button', { name: 'Join on this device' }).click();
  const seat = page.getByRole('listitem', { name: 'mentor' });
  await expect(seat.getByText('joined', { exact: true })).toBeVisible();
  await expect(seat.getByRole('button', { name: /link/ })).toHaveCount(0);

  await expect(page.getByRole('button', { name: 'Open the round' })).toBeDisabled();
  await openRound(page);
  await expect(page.getByText(/^The round is open: 0 of 2 seats locked\./)).toBeVisible();
  expect((await owner().api.evaluation.get.query({ id })).round?.state).toBe('open');
  await mentor.context().close();
  await page.context().close();
});

test('the set-up: faults stand beside their fields, typing outlives a lost link and asks before it is left, then all of it is on the server', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner(), { puppies: 3, join: false });
  const page = await atDesk(browser);
  await open(page, `/setup?id=${day.id}`, 'Eight weeks');
  await page.getByLabel('Link of the call').fill('call me');
  await page.getByRole('button', { name: 'Use the proposed words' }).click();
  await page.getByRole('checkbox', { name: 'Working home' }).check();
  await page.getByText('Weights for working home: all criteria count alike').click();
  await page.getByRole('group', { name: 'Neck' }).last().getByRole('radio', { name: 'counts three times' }).check();
  await page.getByRole('button', { name: 'Add a place' }).click();
  await page.getByRole('button', { name: 'Move Sorrel up' }).click();
  await page.getByRole('button', { name: 'Save the set-up' }).click();
  await expect(page.getByText('A link starts with https:// or http://.')).toBeVisible();
  await expect(page.getByText('Who takes this place?')).toBeVisible();
  const untouched = await owner().api.setup.get.query({ id: day.id });
  expect(untouched).toMatchObject({ callLink: '', tableNote: '', slots: [{ taker: 'breeder' }] });

  await page.getByLabel('Link of the call').fill('https://call.example/room');
  const place = page.getByRole('group', { name: 'Place 2' });
  await place.getByLabel('Taken by').fill('co-owner');
  await place.getByLabel('Seat that picks').selectOption('co-owner');
  await place.getByLabel('For').selectOption('working home');
  await page.getByRole('button', { name: 'Move place 2 up' }).click();
  await page.context().setOffline(true);
  await page.getByRole('button', { name: 'Save the set-up' }).click();
  await expect(page.getByText('No link to the server.')).toBeVisible();
  await expect(page.getByLabel('Link of the call')).toHaveValue('https://call.example/room');
  await page.context().setOffline(false);

  const asked = page.waitForEvent('dialog').then(async (dialog) => {
    const words = dialog.message();
    await dialog.dismiss();
    return words;
  });
  await page.getByRole('link', { name: 'Evenstack' }).click();
  expect(await asked).toMatch(/not saved yet/);
  await expect(page.getByLabel('Link of the call')).toHaveValue('https://call.example/room');

  await page.getByRole('button', { name: 'Save the set-up' }).click();
  await expect(page.getByText('Saved.', { exact: true })).toBeVisible();
  const saved = await owner().api.setup.get.query({ id: day.id });
  expect(saved.callLink).toBe('https://call.example/room');
  expect(saved.tableNote).toMatch(/say nothing about quality/);
  expect(saved.slots.map(({ taker, purpose }) => `${taker}: ${purpose}`)).toEqual([
    'co-owner: working',
    'breeder: keep',
  ]);
  expect(saved.purposes.find(({ key }) => key === 'working')?.weights).toMatchObject({ neck: 3, ears: 1 });
  const names = new Map(saved.puppies.map((puppy) => [puppy.id, puppy.name]));
  expect(saved.order.map((one) => names.get(one))).toEqual(['Fern', 'Sorrel', 'Moss']);
  await page.context().close();
});

test('the order of showing is drawn once, by chance, and shown', async ({ browser }) => {
  const day = await seedQuillmarsh(owner(), { puppies: 5, join: false });
  const page = await atDesk(browser);
  await open(page, `/setup?id=${day.id}`, 'Eight weeks');
  await page.getByRole('button', { name: 'Draw the order by chance' }).click();
  const words = await page.getByText(/^Drawn once: /).innerText();
  await expect(page.getByRole('button', { name: 'Draw the order by chance' })).toBeDisabled();
  await page.getByRole('button', { name: 'Save the set-up' }).click();
  await expect(page.getByText('Saved.', { exact: true })).toBeVisible();
  const saved = await owner().api.setup.get.query({ id: day.id });
  const names = saved.order.map((one) => saved.puppies.find((puppy) => puppy.id === one)?.name ?? '');
  expect(words).toContain(`Drawn once: ${names.join(', ')}.`);
  expect(names.toSorted()).toEqual(['Fern', 'Moss', 'Sedge', 'Sorrel', 'Yarrow']);
  await page.context().close();
});

test('BL1: once the round is open the set-up shows who has locked, never what, and takes a late seat', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner(), { puppies: 2 });
  await owner().api.evaluation.openRound.mutate({ id: day.id });
  await scoreAndLock(day);
  const page = await atDesk(browser);
  const bodies: string[] = [];
  page.on('response', (response) => {
    if (response.url().includes('/api/trpc/'))
      void response.text().then(
        (text) => bodies.push(text),
        () => bodies.push(''),
      );
  });
  await open(page, `/setup?id=${day.id}`, 'Eight weeks');
  await expect(page.getByRole('listitem', { name: 'mentor' }).getByText('has locked')).toBeVisible();
  await expect(page.getByRole('listitem', { name: 'photographer' }).getByText('joined, not locked yet')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Change the seat/ })).toHaveCount(0);
  expect(bodies.length).toBeGreaterThan(0);
  expect(bodies.join('\n')).not.toContain('canary-of-the-mentor');

  await page.getByRole('button', { name: 'Add a late seat' }).click();
  await page.getByLabel('Seat', { exact: true }).fill('novice');
  await page.getByRole('button', { name: 'Save seat' }).click();
  await page.getByRole('button', { name: 'Make link for novice' }).click();
  await expect(page.getByLabel('Link for novice', { exact: true })).toHaveValue(/\/join#/);
  await page.context().close();
});

test('BL9: a seat whose device is lost is reissued in two presses: the old session ends, the new link works once and reads nothing scored before', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner(), { puppies: 2 });
  const seat = (page: Page, name: string) => page.getByRole('listitem', { name, exact: true });
  const lost = (page: Page, name: string) =>
    seat(page, name).getByRole('button', { name: /^Device lost: reissue this seat/ });
  const page = await atDesk(browser);
  await open(page, `/setup?id=${day.id}`, 'Eight weeks');
  await expect(lost(page, 'breeder')).toHaveCount(0);
  await expect(lost(page, 'photographer')).toBeVisible();
  await expect(seat(page, 'photographer').getByRole('button', { name: /^Make/ })).toHaveCount(0);

  await owner().api.evaluation.openRound.mutate({ id: day.id });
  await scoreAndLock(day);
  await open(page, `/setup?id=${day.id}`, 'Eight weeks');
  await lost(page, 'mentor').click();
  await expect(
    seat(page, 'mentor').getByText(
      /session ends at once.*works once.*until the reveal it reads nothing of what was scored before.*Every result will say/,
    ),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Not now' }).click();
  expect((await day.seats.mentor?.api.card.mine.query({ id: day.id }))?.answers.length).toBe(1);
  await lost(page, 'mentor').click();
  await page.getByRole('button', { name: 'End the old session and make a link' }).click();
  const link = await page.getByLabel('Link for mentor', { exact: true }).inputValue();
  await expect(day.seats.mentor?.api.card.mine.query({ id: day.id })).rejects.toMatchObject({
    data: { code: 'not-signed-in' },
  });

  const second = testClient(app().url);
  await second.api.session.join.mutate({ token: new URL(link).hash.slice(1) });
  expect((await second.api.card.mine.query({ id: day.id })).answers).toEqual([]);
  expect(second.received.join('')).not.toContain('canary-of-the-mentor');
  await expect(
    testClient(app().url).api.session.join.mutate({ token: new URL(link).hash.slice(1) }),
  ).rejects.toMatchObject({ data: { code: 'link-dead' } });
  await open(page, `/setup?id=${day.id}`, 'Eight weeks');
  await expect(page.getByLabel('Link for mentor', { exact: true })).toHaveCount(0);

  await day.seats['co-owner']?.api.session.leave.mutate();
  await open(page, `/setup?id=${day.id}`, 'Eight weeks');
  await page.getByRole('button', { name: 'Make link for co-owner' }).click();
  await expect(seat(page, 'co-owner').getByRole('alert')).toHaveText(
    'A device has held this seat before. A new link for it is made by reissuing the seat.',
  );
  await expect(lost(page, 'co-owner')).toBeVisible();
  await page.context().close();
});

async function scoreAndLock({ id, seats }: Quillmarsh): Promise<void> {
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const view = await mentor.api.evaluation.get.query({ id });
  const subject = view.round?.showings[0]?.id ?? '';
  const body = { kind: 'note', criterion: null, text: 'canary-of-the-mentor' } as const;
  const [outcome] = await mentor.api.card.submit.mutate({
    id,
    entries: [{ id: systemRandom.id(), subject, counter: 1, madeAt: 1, body }],
  });
  expect(outcome?.status).toBe('applied');
  await lockCard(mentor, id);
}

test('a sheet: copied, cut, given an own criterion whose faults stand beside it, and kept as the owner’s', async ({
  browser,
}) => {
  const [, short] = (await owner().api.sheet.list.query()).filter((one) => one.builtIn);
  const page = await atDesk(browser);
  await open(page, `/sheet?id=${short?.id}`, 'Short sheet');
  await expect(page.getByRole('article').filter({ hasText: 'Why it matters.' })).toHaveCount(12);
  await page.getByRole('button', { name: 'Copy to a sheet of your own' }).click();
  await page.getByLabel('Name of the sheet').fill('');
  await page.getByRole('button', { name: 'Remove Ears' }).click();
  await page.getByLabel('Steps').selectOption('5 steps');
  await page.getByRole('button', { name: 'Move Neck up' }).click();
  await page.getByRole('checkbox', { name: 'Dewclaws' }).uncheck();
  await page.getByRole('button', { name: 'Add a criterion' }).click();
  const form = page.getByRole('form', { name: 'New criterion' });
  await form.getByLabel('Name of the criterion').fill('Elbow set');
  await form.getByRole('button', { name: 'Put it in the sheet' }).click();
  await expect(form.getByText('This needs words.')).toHaveCount(7);
  await expect(form.getByLabel('Name of the criterion')).toHaveValue('Elbow set');
  for (const [at, seen, word] of [
    ['Lowest step', 'Loose, turned out.', 'loose'],
    ['Middle step', 'A little loose.', 'so-so'],
    ['Highest step', 'Close to the ribs.', 'close'],
  ] as const) {
    await form.getByLabel(`${at}: what is seen`).fill(seen);
    await form.getByLabel(`${at}: short word`).fill(word);
  }
  await form.getByLabel('Why it matters').fill('A loose elbow wastes the step.');
  await page.getByRole('button', { name: 'Save as a sheet of your own' }).click();
  await expect(page.getByText(/A criterion is still open above/)).toBeVisible();
  await form.getByRole('button', { name: 'Put it in the sheet' }).click();
  await page.getByRole('button', { name: 'Save as a sheet of your own' }).click();
  await expect(page.getByText('This needs words.')).toHaveCount(1);
  await page.getByLabel('Name of the sheet').fill('Winter sheet');
  await page.getByRole('button', { name: 'Save as a sheet of your own' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Winter sheet' })).toBeVisible();
  const { sheet, builtIn } = await owner().api.sheet.get.query({
    id: new URL(page.url()).searchParams.get('id') ?? '',
  });
  expect(builtIn).toBe(false);
  expect(sheet.scale).toEqual({ low: 1, high: 5 });
  expect(sheet.criteria.map(({ key }) => key)).not.toContain('ears');
  expect(sheet.criteria.find(({ key }) => key === 'elbow-set')).toMatchObject({
    name: 'Elbow set',
    twoSided: false,
    anchors: { high: 'Close to the ribs.' },
  });
  const keys = sheet.criteria.map(({ key }) => key);
  expect(keys.indexOf('neck')).toBe(keys.indexOf('topline-and-loin') - 1);
  expect(sheet.checks).not.toContain('dewclaws');
  await page.context().close();
});

test('typed scores: a fault by line and column, each row’s fate in words, and nothing written before the second press', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner(), { puppies: 2 });
  await owner().api.evaluation.openRound.mutate({ id: day.id });
  const own = async () => JSON.stringify((await owner().api.card.mine.query({ id: day.id })).answers);
  const before = await own();
  const page = await atDesk(browser);
  await open(page, `/import?id=${day.id}`, 'Typed scores');
  const look = page.getByRole('button', { name: 'See what would happen' });
  await page
    .getByLabel('Scores', { exact: true })
    .fill('puppy,evaluator,criterion,score\nFern,breeder,upper-arm,9\nMoss,breeder,upper-arm,much\n');
  await look.click();
  await expect(
    page.getByText(/^Line 2, column \d+: The score 9 is off the scale.* 1 more fault after that\. Nothing was read\.$/),
  ).toBeVisible();
  await page
    .getByLabel('Scores', { exact: true })
    .fill('puppy,evaluator,criterion,score\nFern,mentor,upper-arm,5\nMoss,breeder,upper-arm,4\n');
  await look.click();
  await expect(page.getByRole('row', { name: /Fern/ })).toContainText('belongs to another evaluator');
  await expect(page.getByRole('button', { name: 'Write these scores' })).toHaveCount(0);
  await page.getByLabel('Choose a CSV file').setInputFiles({
    name: 'scores.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('puppy,evaluator,criterion,score\nFern,breeder,upper-arm,5\nMoss,breeder,upper-arm,\n'),
  });
  await look.click();
  await expect(page.getByRole('row', { name: /Fern/ })).toContainText('will be written');
  await expect(page.getByRole('row', { name: /Moss/ })).toContainText('left blank');
  expect(await own()).toBe(before);
  await page.getByRole('button', { name: 'Write these scores' }).click();
  await expect(page.getByText('On the server.')).toBeVisible();
  expect(await own()).toContain('"value":5');
  await page.context().close();
});

test('LV2: signing out says first what is only on this device, and can be called off', async ({ browser }) => {
  const day = await seedQuillmarsh(owner(), { puppies: 2 });
  const page = await sessionPage(browser, day.seats.mentor ?? null);
  await open(page, '/', 'Eight weeks');
  await expect(page.getByText(/still setting this up/)).toBeVisible();
  await page.getByRole('button', { name: 'Sign out of this browser' }).click();
  await expect(page.getByText('Everything entered on this device is on the server.')).toBeVisible();
  await page.getByRole('button', { name: 'Stay' }).click();
  await putWaitingRow(page, {
    evaluationId: day.id,
    seatId: (await day.seats.mentor?.api.evaluation.get.query({ id: day.id }))?.viewer.seatId ?? '',
  });
  await page.getByRole('button', { name: 'Sign out of this browser' }).click();
  await expect(page.getByText(/^1 entry is only on this device\. Signed out it cannot send them/)).toBeVisible();
  await page.getByRole('button', { name: 'Sign out now' }).click();
  await expect(page.getByRole('heading', { name: 'You need a link' })).toBeVisible();
  await expect(day.seats.mentor?.api.evaluation.get.query({ id: day.id })).rejects.toMatchObject({
    data: { code: 'not-signed-in' },
  });
  await page.context().close();
});

/** As the scoring screen leaves it when there is no link. */
async function putWaitingRow(
  page: Page,
  seat: { readonly evaluationId: string; readonly seatId: string },
): Promise<void> {
  await page.evaluate(
    (owned) =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.open('evenstack');
        request.onerror = () => reject(new Error('no database'));
        request.onsuccess = () => {
          const transaction = request.result.transaction('outbox', 'readwrite');
          const entry = {
            id: 'b'.repeat(32),
            subject: 'c'.repeat(32),
            counter: 1,
            madeAt: 1,
            body: { kind: 'overall', value: 4, cannotJudge: false },
          };
          transaction.objectStore('outbox').put({
            ...owned,
            id: entry.id,
            order: 1,
            entry,
            roundId: 'd'.repeat(32),
            status: 'waiting',
            code: null,
            kept: 'disk',
          });
          transaction.oncomplete = () => {
            request.result.close();
            resolve();
          };
        };
      }),
    seat,
  );
}

/** One load, looked at in both sizes and both themes: what differs between them is style alone. */
async function checkScreen(
  browser: Browser,
  { path, heading, client }: { readonly path: string; readonly heading: string; readonly client: TestClient | null },
): Promise<void> {
  const page = await sessionPage(browser, client);
  await open(page, path, heading);
  for (const width of [390, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
      `${path} at ${width} scrolls sideways`,
    ).toBeLessThanOrEqual(0);
    expect(await axeFaultsInBothThemes(page), `${path} at ${width}`).toEqual([]);
  }
  await page.context().close();
}

test('desk and litter pass the accessibility check on a phone and at a desk, light and dark, and neither scrolls sideways', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner(), { puppies: 9, join: false });
  const { litterId } = await owner().api.setup.get.query({ id: day.id });
  const [puppy] = (await owner().api.litter.get.query({ id: litterId })).puppies;
  for (const [weighedOn, grams] of [
    ['2026-07-19', 520],
    ['2026-08-15', 2800],
    ['2026-09-10', 8100],
  ] as const) {
    await owner().api.litter.saveWeight.mutate({ litterId, puppyId: puppy?.id ?? '', weight: { weighedOn, grams } });
  }
  await checkScreen(browser, { path: '/', heading: 'Your desk', client: owner() });
  await checkScreen(browser, { path: '/litter', heading: 'New litter', client: owner() });
  await checkScreen(browser, { path: `/litter?id=${litterId}`, heading: 'Quillmarsh autumn', client: owner() });
});

test('sheet and set-up pass the accessibility check on a phone and at a desk, light and dark, and neither scrolls sideways', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner(), { puppies: 5, join: false });
  const { sheetId } = await owner().api.setup.get.query({ id: day.id });
  await checkScreen(browser, { path: `/sheet?id=${sheetId}`, heading: 'Short sheet', client: owner() });
  await checkScreen(browser, { path: `/setup?id=${day.id}`, heading: 'Eight weeks', client: owner() });
});

test('the screens of the day, a stranger’s and a lost one pass the accessibility check on a phone and at a desk, light and dark, and none scrolls sideways', async ({
  browser,
}) => {
  const day = await seedQuillmarsh(owner(), { puppies: 3 });
  await owner().api.evaluation.openRound.mutate({ id: day.id });
  await checkScreen(browser, { path: `/setup?id=${day.id}`, heading: 'Eight weeks', client: owner() });
  await checkScreen(browser, { path: `/import?id=${day.id}`, heading: 'Typed scores', client: owner() });
  await checkScreen(browser, { path: '/', heading: 'Eight weeks', client: day.seats.mentor ?? null });
  await checkScreen(browser, { path: '/', heading: 'Evenstack', client: null });
  await checkScreen(browser, { path: '/nowhere', heading: 'There is no such page', client: null });
});
