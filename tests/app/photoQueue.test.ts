import 'fake-indexeddb/auto';
import { expect, it, vi } from 'vitest';
import { PhotoQueue } from '#app/_data/photoQueue';
import { openPhotoStore, type WaitingPhoto } from '#app/_data/photoStore';
import { pictureId } from '#app/_data/pictureId';
import type { PostPhoto } from '#app/_data/postPhoto';
import { after } from '#app/_data/timers';

let stores = 0;

function photo(id: string, seat = 'mentor'): WaitingPhoto {
  return { id, evaluationId: 'e', seat, puppyId: 'p', view: 'front', takenAt: 1, fair: true, name: `${id}.jpg`, bytes: new ArrayBuffer(8), type: 'image/jpeg', addedAt: Number(id), code: null };
}

function queueWith(post: PostPhoto, name = `pictures ${(stores += 1)}`, seat = 'mentor') {
  const store = openPhotoStore(name);
  const queue = new PhotoQueue({ evaluationId: 'e', seat, store, post, now: () => 0, after, spread: () => 0.5, alone: (work) => work(), onSent: () => undefined });
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

it.each(['busy', 'too-many', 'disk-full', 'unknown', 'not-signed-in'])('a server that says %s is tried again, not given up', async (code) => {
  const { queue } = queueWith(() => refuse(code));
  await queue.start();
  await queue.add(photo('1'));
  await vi.waitFor(() => expect(queue.getView().failures).toBe(1));
  expect(queue.getView().rows.map((row) => row.code)).toEqual([null]);
  queue.stop();
});

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
