import { expect, test, type Page } from '@playwright/test';
import { lockCard } from '#tests/support/lockCard';
import { drawnPictures } from '#tests/support/drawnPictures';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { sendPhoto } from '#tests/support/sendPhoto';
import { startApp, type App } from '#tests/support/startApp';
import type { TestClient } from '#tests/support/testClient';
import { axeFaults } from '#tests/support/axeFaults';
import { closePages, desk, sessionPage } from '#tests/support/sessionPage';

let app: App;
let owner: TestClient;
let pictures: readonly Buffer[];

test.beforeAll(async () => {
  app = await startApp();
  owner = await app.owner();
  pictures = await drawnPictures(40);
});

test.afterEach(closePages);

test.afterAll(async () => {
  await app[Symbol.asyncDispose]();
});

/** Two puppies with a picture of each side, and the first round open. */
async function withPictures(): Promise<Quillmarsh & { readonly photoIds: readonly string[] }> {
  const quillmarsh = await seedQuillmarsh(owner, { puppies: 2, medium: 'photographs' });
  const { id } = quillmarsh;
  const { puppies } = await owner.api.evaluation.get.query({ id });
  const photoIds: string[] = [];
  for (const [index, puppy] of puppies.entries()) {
    const sent = await sendPhoto(owner, {
      evaluation: id,
      puppy: puppy.id,
      bytes: pictures[6 * index + 1] ?? Buffer.alloc(0),
      view: 'right-side',
    });
    photoIds.push(sent.id ?? '');
  }
  await owner.api.evaluation.openRound.mutate({ id });
  return { ...quillmarsh, photoIds };
}

const stages = (page: Page) => page.getByRole('application');
const boxes = async (page: Page) =>
  Promise.all((await stages(page).all()).map((stage) => stage.getAttribute('viewBox')));

test('SC1, LV2: forty pictures are dropped, matched with few taps, made without a link, sent when it is back, and seen by the others', async ({
  browser,
}) => {
  const { id, seats } = await seedQuillmarsh(owner, { puppies: 5 });
  const page = await sessionPage(browser, seats['photographer'], { viewport: desk });
  const watcher = await sessionPage(browser, seats['mentor']);
  await watcher.goto(`${app.url}/photos?id=${id}`);
  await expect(watcher.getByText('0 of 45 shots taken')).toBeVisible();
  await page.goto(`${app.url}/photos?id=${id}`);
  await page.getByRole('button', { name: 'Add many' }).click();
  const files = pictures.map((buffer, index) => ({ name: `IMG_${index + 1}.jpg`, mimeType: 'image/jpeg', buffer }));
  await page.getByLabel('Choose pictures').setInputFiles(files);
  await expect(page.getByRole('button', { name: 'Picture 1, IMG_1.jpg: Fern, Left side' })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Picture 9, IMG_9.jpg: Moss, Left side' })).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  // The first was taken of the right side: one tap and one choice put it and those after it right.
  await page.getByRole('button', { name: /^Picture 1, / }).click();
  await page.getByLabel('View').selectOption('right-side');
  await page.getByRole('button', { name: 'It is this one' }).click();
  await expect(page.getByRole('button', { name: 'Picture 8, IMG_8.jpg: Moss, Left side' })).toBeVisible();
  await page.context().setOffline(true);
  await page.getByRole('button', { name: 'Send 40 pictures' }).click();
  await expect(page.getByText('40 pictures only on this device: no answer from the server')).toBeVisible();
  expect((await owner.api.photo.list.query({ id })).photos).toHaveLength(0);
  await page.context().setOffline(false);
  await expect(page.getByText('40 pictures sent, none waits')).toBeVisible();
  const { photos } = await owner.api.photo.list.query({ id });
  const { puppies } = await owner.api.evaluation.get.query({ id });
  expect(photos).toHaveLength(40);
  // From the second view of the first puppy on, every place of the plan once, and the very first again at the end.
  expect(new Set(photos.map((photo) => `${photo.puppyId} ${photo.view}`)).size).toBe(40);
  expect(puppies.map((puppy) => photos.filter((photo) => photo.puppyId === puppy.id).length)).toEqual([8, 8, 8, 8, 8]);
  await expect(watcher.getByText('40 of 45 shots taken')).toBeVisible();
  expect(await axeFaults(watcher)).toEqual([]);
  await page.context().close();
  await watcher.context().close();
});

test('BL1: what a mentor points at is hidden from everybody before reveal and shown to all after it', async ({
  browser,
}) => {
  const { id, seats, photoIds } = await withPictures();
  const page = await sessionPage(browser, seats['mentor'], { viewport: desk });
  await page.goto(`${app.url}/photos?id=${id}`);
  await page.getByRole('button', { name: /^Fern, Right side: taken/ }).click();
  await page.getByRole('button', { name: 'Look closely', exact: true }).click();
  await page.getByRole('button', { name: 'Point at a place' }).click();
  await stages(page).focus();
  for (const key of ['Shift+ArrowLeft', 'Enter', 'Shift+ArrowDown', 'Shift+ArrowDown', 'Enter'])
    await page.keyboard.press(key);
  await page.getByLabel('Short note').fill('quince elbow');
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Keep this mark' }).click();
  await expect(page.getByText('You: quince elbow (arrow)', { exact: true })).toBeVisible();
  const other = await sessionPage(browser, seats['photographer'], { viewport: desk });
  const told: Promise<string>[] = [];
  other.on('response', (response) => told.push(response.text().catch(() => '')));
  await other.goto(`${app.url}/photos?id=${id}`);
  await other.getByRole('button', { name: 'Side by side' }).click();
  await expect(stages(other)).toHaveCount(2);
  await expect(other.locator('svg title', { hasText: 'quince' })).toHaveCount(0);
  expect((await Promise.all(told)).join('')).not.toContain('quince');
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  await expect(other.locator('svg title', { hasText: 'mentor: quince elbow' })).toHaveCount(1);
  await expect(owner.api.photo.keep.mutate({ id, photoId: photoIds[0] ?? '' })).rejects.toThrow('wrong-phase');
  await page.context().close();
  await other.context().close();
});

test('two puppies side by side: by keyboard they move together, swap, and part when unlinked', async ({ browser }) => {
  const { id, seats } = await withPictures();
  const page = await sessionPage(browser, seats['mentor'], { viewport: desk });
  await page.goto(`${app.url}/photos?id=${id}`);
  await page.getByRole('button', { name: 'Side by side' }).click();
  await expect(stages(page)).toHaveCount(2);
  const [whole] = await boxes(page);
  const sizes = await Promise.all((await stages(page).all()).map((stage) => stage.boundingBox()));
  expect(sizes[0]?.width).toBeCloseTo(sizes[1]?.width ?? 0, 0);
  await stages(page).first().focus();
  for (const key of ['+', '+', 'ArrowRight']) await page.keyboard.press(key);
  const [one, other] = await boxes(page);
  expect([one === whole, one === other]).toEqual([false, true]);
  const names = () => page.locator('figcaption b').allInnerTexts();
  expect(await names()).toEqual(['Fern', 'Moss']);
  await page.getByRole('button', { name: 'Swap places' }).focus();
  await page.keyboard.press('Enter');
  expect(await names()).toEqual(['Moss', 'Fern']);
  for (const tick of ['Move together', 'Level and upright lines', 'Mirror']) {
    await page.getByLabel(tick).focus();
    await page.keyboard.press('Space');
  }
  await stages(page).first().focus();
  await page.keyboard.press('0');
  const [reset, kept] = await boxes(page);
  expect([reset, kept]).toEqual([whole, other]);
  expect(await axeFaults(page)).toEqual([]);
  await page.context().close();
});

test('two puppies side by side: by touch, two fingers come closer and one moves, in both pictures', async ({
  browser,
}) => {
  const { id, seats } = await withPictures();
  const page = await sessionPage(browser, seats['mentor'], { hasTouch: true });
  await page.goto(`${app.url}/photos?id=${id}`);
  await page.getByRole('button', { name: 'Side by side' }).tap();
  await expect(stages(page)).toHaveCount(2);
  await stages(page).first().scrollIntoViewIfNeeded();
  const box = await stages(page).first().boundingBox();
  if (!box) throw new Error('no stage');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const fingers = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...places: readonly (readonly [number, number])[]) =>
    fingers.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: places.map(([dx, dy], id2) => ({ x: x + dx, y: y + dy, id: id2 })),
    });
  await touch('touchStart', [-20, 0], [20, 0]);
  for (const apart of [30, 45, 60, 80]) await touch('touchMove', [-apart, 0], [apart, 0]);
  await touch('touchEnd');
  const [closer, same] = (await boxes(page)).map((one) => one?.split(' ').map(Number) ?? []);
  expect(closer).toEqual(same);
  expect((closer?.[2] ?? 0) / 480).toBeLessThan(0.5);
  await touch('touchStart', [0, 0]);
  for (const moved of [20, 40, 60]) await touch('touchMove', [moved, 0]);
  await touch('touchEnd');
  const [after, alike] = (await boxes(page)).map((one) => one?.split(' ').map(Number) ?? []);
  expect(after).toEqual(alike);
  expect(after?.[0]).toBeLessThan(closer?.[0] ?? 0);
  await page.context().close();
});

test('ST4: one ratio is measured by keyboard from the places it needs, and the sentence gives its range', async ({
  browser,
}) => {
  const { id } = await withPictures();
  const page = await sessionPage(browser, owner, { viewport: desk });
  await page.goto(`${app.url}/photos?id=${id}`);
  await page.getByRole('button', { name: /^Moss, Right side: taken/ }).click();
  await page.getByRole('button', { name: 'Look closely', exact: true }).click();
  await page.getByRole('button', { name: 'Measure a ratio' }).click();
  await stages(page).focus();
  await expect(page.getByText('point of the shoulder', { exact: true })).toBeVisible();
  const put = async (key: string, times: number) => {
    for (let press = 0; press < times; press += 1) await page.keyboard.press(key);
    await page.keyboard.press('Enter');
  };
  await put('Shift+ArrowRight', 4);
  await put('Shift+ArrowLeft', 8);
  await put('Shift+ArrowUp', 5);
  await put('Shift+ArrowDown', 10);
  await expect(
    page.getByText(
      /^In this picture body length is \d\.\d\d times height at the withers; nine times in ten the true ratio lies between \d\.\d\d and \d\.\d\d\.$/,
    ),
  ).toBeVisible();
  await page.getByText('What the breed’s standard says').click();
  await page.getByRole('button', { name: /^Confirm ?: Length to height is 10 to 9\.$/ }).click();
  await expect(page.getByText(/the published 1\.06 to 1\.17 for grown dogs/)).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Keep this reading' }).click();
  await expect(page.getByText(/^You: \d\.\d\d \(\d\.\d\d to \d\.\d\d\)$/)).toBeVisible();
  await page.context().close();
});

test('a photograph round shows the picture that the question asks about', async ({ browser }) => {
  const { id, seats } = await withPictures();
  const page = await sessionPage(browser, seats['photographer']);
  await page.goto(`${app.url}/score?id=${id}`);
  await page.getByRole('button', { name: 'Start scoring' }).click();
  await expect(stages(page)).toHaveCount(1);
  await expect(page.getByRole('application', { name: /Right side/ })).toBeVisible();
  expect(await axeFaults(page)).toEqual([]);
  await page.context().close();
});

/** A second or two of a moving square, recorded by the browser itself. */
async function recordedClip(page: Page): Promise<Buffer> {
  const bytes = await page.evaluate(async () => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 160, height: 120 });
    const pen = canvas.getContext('2d');
    const recorder = new MediaRecorder(canvas.captureStream(25), { mimeType: 'video/webm;codecs=vp8' });
    const parts: Blob[] = [];
    recorder.addEventListener('dataavailable', ({ data }) => parts.push(data));
    const stopped = new Promise((done) => recorder.addEventListener('stop', done));
    recorder.start();
    for (let frame = 0; frame < 40; frame += 1) {
      pen?.fillRect(frame * 3, frame * 2, 20, 20);
      await new Promise((next) => setTimeout(next, 40));
    }
    recorder.stop();
    await stopped;
    return [...new Uint8Array(await new Blob(parts).arrayBuffer())];
  });
  return Buffer.from(bytes);
}

test('BL5: a clip loses the name of the program that wrote it, and plays in the browser all the same', async ({
  browser,
}) => {
  const { id, seats } = await seedQuillmarsh(owner, { puppies: 1 });
  const page = await sessionPage(browser, seats['mentor'], { viewport: desk });
  await page.goto(`${app.url}/photos?id=${id}`);
  const clip = await recordedClip(page);
  expect(clip.includes('Chrome')).toBe(true);
  const puppy = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const sent = await sendPhoto(owner, { evaluation: id, puppy, bytes: clip, view: 'right-side', type: 'video/webm' });
  const served = await fetch(`${app.url}/api/photo/${sent.id}/large`, { headers: { cookie: owner.cookie() } });
  const stripped = Buffer.from(await served.arrayBuffer());
  expect([stripped.byteLength, stripped.includes('Chrome')]).toEqual([clip.byteLength, false]);
  await page.getByRole('button', { name: /^Fern, Right side: taken/ }).click();
  const video = page.locator('video');
  await video.evaluate((player: HTMLVideoElement) => player.play());
  await expect
    .poll(() =>
      video.evaluate((player: HTMLVideoElement) => [
        player.videoWidth,
        player.videoHeight,
        player.error === null,
        player.currentTime > 0.5,
        player.getVideoPlaybackQuality().totalVideoFrames > 5,
      ]),
    )
    .toEqual([160, 120, true, true, true]);
  await page.context().close();
});
