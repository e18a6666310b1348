import 'fake-indexeddb/auto';
import { expect, it, vi } from 'vitest';
import { PhotoQueue } from '#app/_data/photoQueue';
import { faultOf, PhotoRefused } from '#app/_data/photoAnswer';
import { openPhotoStore, type WaitingPhoto } from '#app/_data/photoStore';
import { pictureId } from '#app/_data/shrinkPicture';
import type { PostPhoto } from '#app/_data/postPhoto';
import { refusalText } from '#app/_data/refusalText';
import { after } from '#app/_data/timers';
import { serverMark } from '#lib/contract/wire';

let stores = 0;
/** A net for a busy machine, in milliseconds. */
const patience = 60_000;

function photo(id: string, seat = 'mentor'): WaitingPhoto {
  return {
    id,
    evaluationId: 'e',
    seat,
    puppyId: 'p',
    view: 'front',
    takenAt: 1,
    fair: true,
    name: `${id}.jpg`,
    bytes: new ArrayBuffer(8),
    type: 'image/jpeg',
    addedAt: Number(id),
    code: null,
  };
}

function queueWith(post: PostPhoto, name = `pictures ${(stores += 1)}`, seat = 'mentor', now = () => 0) {
  const store = openPhotoStore(name);
  const queue = new PhotoQueue({
    evaluationId: 'e',
    seat,
    store,
    post,
    now,
    after,
    spread: () => 0.5,
    alone: (work) => work(),
    onSent: () => undefined,
  });
  return { queue, store, name };
}

const refuse = (code: string) => Promise.reject(Object.assign(new Error('refused'), { data: { code } }));

it('SC1: a picture is on the device before it is sent, and gone from it once the server has it', async () => {
  const held: number[] = [];
  const { queue, store } = queueWith(async () => {
    held.push((await store.load({ evaluationId: 'e', seat: 'mentor' })).length);
  });
  await queue.start();
  await queue.add(photo('1'));
  await vi.waitFor(() => expect(queue.getView().sent).toBe(1));
  expect(held).toEqual([1]);
  await vi.waitFor(async () => expect(await store.load({ evaluationId: 'e', seat: 'mentor' })).toEqual([]));
});

it('SC2: without a link everything waits, survives the page, and goes out in order under the same ids', async () => {
  const { queue, name, store } = queueWith(() => Promise.reject(new Error('no answer')));
  await queue.start();
  for (const id of ['1', '2', '3']) await queue.add(photo(id));
  await vi.waitFor(() => expect(queue.getView().failures).toBeGreaterThan(0));
  queue.stop();
  store.close();
  const sent: string[] = [];
  const later = queueWith(async ({ id }) => void sent.push(id), name);
  await later.queue.start();
  expect(sent).toEqual(['1', '2', '3']);
  expect(later.queue.getView().rows).toEqual([]);
});

it('SC5: a refused picture stays, with its reason, until it is put away, and holds up nobody behind it', async () => {
  const { queue, store } = queueWith(({ id }) => (id === '1' ? refuse('file-heic') : Promise.resolve()));
  await queue.start();
  await queue.add(photo('1'));
  await queue.add(photo('2'));
  await vi.waitFor(() => expect(queue.getView().sent).toBe(1));
  expect(queue.getView().rows.map(({ id, code }) => [id, code])).toEqual([['1', 'file-heic']]);
  expect((await store.load({ evaluationId: 'e', seat: 'mentor' })).map((row) => row.code)).toEqual(['file-heic']);
  queue.putAway('1');
  await vi.waitFor(async () => expect(await store.load({ evaluationId: 'e', seat: 'mentor' })).toEqual([]));
});

it.each(['busy', 'too-many', 'disk-full', 'unknown', 'not-signed-in'])(
  'a server that says %s is tried again, not given up',
  async (code) => {
    const { queue } = queueWith(() => refuse(code));
    await queue.start();
    await queue.add(photo('1'));
    await vi.waitFor(() => expect(queue.getView().failures).toBe(1));
    expect(queue.getView().rows.map((row) => row.code)).toEqual([null]);
    queue.stop();
  },
);

it('BL1: another seat of the same browser neither sees nor sends what a seat has waiting', async () => {
  const { queue, name } = queueWith(() => Promise.reject(new Error('no answer')));
  await queue.start();
  await queue.add(photo('1'));
  queue.stop();
  const other = queueWith(() => Promise.resolve(), name, 'photographer');
  await other.queue.start();
  expect([other.queue.getView().rows, other.queue.getView().sent]).toEqual([[], 0]);
});

it('SC2: the id is made of the content: the same bytes, the same id; another evaluation, another', () => {
  const bytes = new Uint8Array([1, 2, 3]).buffer;
  expect(pictureId('a', bytes)).toBe(pictureId('a', new Uint8Array([1, 2, 3]).buffer));
  expect(pictureId('a', bytes)).not.toBe(pictureId('b', bytes));
  expect(pictureId('a', bytes)).toMatch(/^[0-9a-f]{32}$/);
});

const sent = { id: 'a'.repeat(32), hash: 'b'.repeat(64) };
const own = serverMark.value;
const kept = JSON.stringify({ sent: sent.id, hash: sent.hash, id: 'c'.repeat(32) });

it.each<[string, number, string | null, string]>([
  ['a sign-in page', 200, null, '<h1>Welcome, guest</h1>'],
  ['an empty 200', 200, null, ''],
  ['204 without a word', 204, null, ''],
  ['our very answer without our mark', 200, null, kept],
  ['our answer for another picture', 200, own, kept.replace(sent.id, 'd'.repeat(32))],
  ['our answer with other bytes', 200, own, kept.replace(sent.hash, 'd'.repeat(64))],
  ['our answer without a hash', 200, own, JSON.stringify({ id: sent.id })],
  ['a page of ours', 200, own, '<h1>Evenstack</h1>'],
  ['nothing, with our mark', 200, own, 'null'],
  ['a gateway without a server', 502, null, '<h1>Bad gateway</h1>'],
  ['a network that wants a sign-in', 511, null, ''],
  ['an unreadable fault of ours', 500, own, '<h1>500</h1>'],
])('LV2: %s does not say that the picture is on the server, nor that it was refused', (_, status, mark, body) => {
  const fault = faultOf({ status, mark, body }, sent);
  expect(fault).toBeInstanceOf(Error);
  expect(fault).not.toBeInstanceOf(PhotoRefused);
});

it('LV2: only the server’s own word with this picture’s id and hash says that it is there', () => {
  expect(faultOf({ status: 200, mark: own, body: kept }, sent)).toBeNull();
});

it('LV2: a refusal on the way is told apart from one of the server, and named', () => {
  const codeIn = (status: number, mark: string | null, body: string) => {
    const fault = faultOf({ status, mark, body }, sent);
    return fault instanceof PhotoRefused ? fault.data.code : null;
  };
  const refusal = '{"error":{"message":"file-too-large","data":{"code":"file-too-large"}}}';
  expect([
    codeIn(413, null, '<h1>413</h1>'),
    codeIn(413, null, refusal),
    codeIn(403, null, 'blocked'),
    codeIn(413, own, refusal),
  ]).toEqual(['way-too-large', 'way-too-large', 'way-refused', 'file-too-large']);
  expect(refusalText({ data: { code: 'way-too-large' } })).toMatch(/^Too large for the way there: /);
});

it('SC5: what is refused on the way is tried later and later, then kept until the person asks; it holds up nobody', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'Date'] });
  try {
    const tries: number[] = [];
    let open = false;
    const post: PostPhoto = ({ id }) => {
      if (id !== '1') return Promise.resolve();
      tries.push(Date.now());
      return open ? Promise.resolve() : refuse('way-too-large');
    };
    const { queue, store, name } = queueWith(post, undefined, 'mentor', () => Date.now());
    const settle = (check: () => void) => vi.waitFor(check, { interval: 1, timeout: patience });
    await queue.start();
    await queue.add(photo('1'));
    await settle(() => expect(queue.getView().onWay).toEqual({ 1: 'way-too-large' }));
    await queue.add(photo('2'));
    await settle(() => expect(queue.getView().sent).toBe(1));
    for (let n = 0; n < 200 && queue.getView().rows[0]?.code === null; n += 1) await vi.advanceTimersByTimeAsync(1000);
    expect(queue.getView().rows.map(({ id, code }) => [id, code])).toEqual([['1', 'way-too-large']]);
    expect(tries).toHaveLength(5);
    const pauses = tries.slice(1).map((at, index) => at - (tries[index] ?? 0));
    expect(pauses.toSorted((a, b) => a - b)).toEqual(pauses);
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect(tries).toHaveLength(5);
    // Still warned of on leaving, and still there for a later page.
    expect(await store.count()).toBe(1);
    const later = queueWith(post, name, 'mentor', () => Date.now());
    await later.queue.start();
    expect(tries).toHaveLength(5);
    open = true;
    await later.queue.retry('1');
    await settle(() => expect(later.queue.getView().sent).toBe(1));
    expect(later.queue.getView().rows).toEqual([]);
  } finally {
    vi.useRealTimers();
  }
});
