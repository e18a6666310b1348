import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import { keepPromise, readPromises } from '#app/_data/keptPromises';
import type { KeptStore } from '#app/_data/keptStore';
import { acceptHead, witnessHead } from '#app/_data/witness';

const evaluationId = 'e'.repeat(32);
const hash = (digit: string) => digit.repeat(64);

/** A device that keeps in memory, and a server whose record is a list of hashes, the first line's first. */
function device() {
  const kept = new Map<string, unknown>();
  const store: KeptStore = {
    get: (key) => Promise.resolve(kept.get(key)),
    set: (key, value) => Promise.resolve(void kept.set(key, value)),
    update: (key, step) => {
      const next = step(kept.get(key));
      kept.set(key, next);
      return Promise.resolve(next);
    },
    remove: (key) => Promise.resolve(void kept.delete(key)),
  };
  const sees = (record: readonly string[], now = 1, head = record.length) =>
    witnessHead(
      {
        evaluationId,
        now,
        head: { seq: head, hash: record[head - 1] ?? hash('0') },
        hashAt: (seq) => Promise.resolve(record[seq - 1] ?? null),
      },
      store,
    );
  return { store, sees };
}

it('BL7: a record that only grows is never called another', async () => {
  const { sees } = device();
  const record = ['1', '2', '3', '4'].map(hash);
  for (const length of [1, 2, 2, 4]) expect(await sees(record.slice(0, length))).toBeNull();
});

it('BL7: an answer that was overtaken on its way is no other record', async () => {
  const { sees } = device();
  const record = ['1', '2', '3'].map(hash);
  await sees(record);
  expect(await sees(record, 2, 2)).toBeNull();
  expect(await sees(record.slice(0, 2), 3)).toMatchObject({ seq: 3 });
});

it.each([
  ['shorter', ['1', '2']],
  ['as long, its last line another', ['1', '2', '9']],
  ['longer, a line that this device saw another', ['1', '2', '9', '4']],
])('BL7: a record that is %s is noticed, and stays noticed when the old one comes back', async (_, other) => {
  const { sees } = device();
  const record = ['1', '2', '3'].map(hash);
  await sees(record, 7);
  expect(await sees(other.map(hash), 8)).toEqual({ seq: 3, hash: hash('3'), at: 7 });
  expect(await sees(record, 9)).toEqual({ seq: 3, hash: hash('3'), at: 7 });
});

it('BL7: who knows why goes on from the record as it is, and is held to that one', async () => {
  const { sees, store } = device();
  await sees(['1', '2'].map(hash));
  const other = ['1', '9'].map(hash);
  expect(await sees(other)).not.toBeNull();
  await acceptHead({ evaluationId, head: { seq: 2, hash: hash('9') }, now: 4 }, store);
  expect(await sees(other)).toBeNull();
  expect(await sees(['1', '2', '3'].map(hash))).not.toBeNull();
});

it('BL7: without an answer from the server nothing is claimed and nothing forgotten', async () => {
  const { sees, store } = device();
  await sees(['1'].map(hash));
  const silent = {
    evaluationId,
    now: 2,
    head: { seq: 2, hash: hash('9') },
    hashAt: () => Promise.reject(new Error('no link')),
  };
  await expect(witnessHead(silent, store)).rejects.toThrow('no link');
  expect(await sees(['8', '9'].map(hash))).toMatchObject({ seq: 1, hash: hash('1') });
});

it('SC5: every promise a device sent is kept, for the answer to one may have been lost', async () => {
  const { store } = device();
  const owner = { roundId: 'a'.repeat(32), seatId: 'b'.repeat(32) };
  expect(await readPromises(owner, store)).toEqual([]);
  await keepPromise(owner, { nonce: 'c'.repeat(32), commitment: hash('1') }, store);
  await keepPromise(owner, { nonce: 'd'.repeat(32), commitment: hash('2') }, store);
  expect((await readPromises(owner, store)).map((one) => one.commitment)).toEqual([hash('1'), hash('2')]);
});

it('BL7: two pages that lock at once lose neither promise', async () => {
  const owner = { roundId: 'r', seatId: 's' };
  const promises = ['1', '2', '3'].map((digit) => ({ nonce: digit, commitment: hash(digit) }));
  await Promise.all(promises.map((promise) => keepPromise(owner, promise)));
  expect(await readPromises(owner)).toEqual(promises);
});

it('BL7: what the person has accepted while the server was asked is not called broken by the answer', async () => {
  const { store, sees } = device();
  await sees(['1', '2', '3'].map(hash));
  const other = ['1', '9'].map(hash);
  const head = { seq: 2, hash: hash('9') };
  const hashAt = async (seq: number) => {
    await acceptHead({ evaluationId, head, now: 5 }, store);
    return other[seq - 1] ?? null;
  };
  expect(await witnessHead({ evaluationId, head, now: 4, hashAt }, store)).toBeNull();
  expect(await sees(other, 6)).toBeNull();
});
