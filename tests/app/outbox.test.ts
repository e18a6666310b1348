import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { openDB } from 'idb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openDeviceDatabase } from '#app/_data/deviceDatabase';
import { Outbox, type OutboxSetting } from '#app/_data/outbox';
import { openOutboxStore, type OutboxStore } from '#app/_data/outboxStore';
import { after } from '#app/_data/timers';
import { silentSince } from '#app/score/linkWords';
import type { Answer, Entry, EntryOutcome } from '#lib/contract/entry';
import { ownAnswers } from '#lib/evaluation/ownAnswers';
import type { OutboxRow } from '#lib/evaluation/outboxState';

const owner = { evaluationId: 'e'.repeat(32), seatId: '5'.repeat(32) };
const subject = 'a'.repeat(32);
const roundId = 'f'.repeat(32);
const applied = (entries: readonly Entry[]): EntryOutcome[] =>
  entries.map(({ id }) => ({ id, status: 'applied', code: null }));

let made = 0;
const started: Outbox[] = [];
const freshId = () => {
  made += 1;
  return made.toString(16).padStart(32, '0');
};

function startOutbox(change: Partial<OutboxSetting>): Outbox {
  const outbox = new Outbox({
    ...owner,
    store: openOutboxStore(freshId()),
    now: () => 0,
    after,
    spread: () => 0,
    freshId,
    send: async (entries) => applied(entries),
    alone: (work) => work(),
    tellOthers: () => undefined,
    onAnswered: () => undefined,
    onDoubt: () => undefined,
    ...change,
  });
  outbox.start();
  started.push(outbox);
  return outbox;
}

const tap = (outbox: Outbox, value: number) =>
  outbox.add({ subject, roundId, body: { kind: 'score', criterion: 'neck', value, cannotJudge: false } });
const reads = (outbox: Outbox, answers: readonly Answer[], at = 1) =>
  outbox.absorb({ roundId, answers, at, round: 'open', later: false });
const loaded = (outbox: Outbox) => vi.waitFor(() => expect(outbox.getView().loaded).toBe(true));
const failing = async (): Promise<never> => {
  throw new Error('no disk');
};

afterEach(() => {
  for (const outbox of started.splice(0)) outbox.stop();
});

describe('the outbox on a device', () => {
  it('SC2: a tap is on the device, under its own id, before it is sent', async () => {
    const store = openOutboxStore(freshId());
    const onDisk: (readonly OutboxRow[])[] = [];
    const sent: Entry[] = [];
    const outbox = startOutbox({
      store,
      send: async (entries) => {
        onDisk.push(await store.load(owner));
        sent.push(...entries);
        return applied(entries);
      },
    });
    await loaded(outbox);
    await tap(outbox, 5);
    expect(sent).toHaveLength(1);
    expect(onDisk[0]?.map((row) => row.entry)).toEqual(sent);
    // An acknowledged entry shows until a read has it: a device that loses its link then still shows it.
    expect(await store.load(owner)).toMatchObject([{ status: 'applied' }]);
    const answers: Answer[] = [
      {
        subject,
        field: 'score:neck',
        counter: 1,
        body: { kind: 'score', criterion: 'neck', value: 5, cannotJudge: false },
      },
    ];
    reads(outbox, answers);
    await vi.waitFor(async () => expect(await store.load(owner)).toMatchObject([{ status: 'applied', shown: true }]));
    expect(outbox.getView().state.rows).toEqual([]);
    outbox.absorb({ roundId, answers, at: 2, round: 'revealed', later: false });
    await vi.waitFor(async () => expect(await store.load(owner)).toEqual([]));
  });

  it('SC2: a tab that was closed offline sends, when reopened, the same entry with the same id', async () => {
    const name = freshId();
    const offline = startOutbox({ store: openOutboxStore(name), send: failing });
    await loaded(offline);
    await tap(offline, 3);
    offline.stop();
    const [kept] = offline.getView().state.rows;
    const sent: Entry[] = [];
    const reopened = startOutbox({
      store: openOutboxStore(name),
      send: async (entries) => (sent.push(...entries), applied(entries)),
    });
    await vi.waitFor(() => expect(sent).toEqual([kept?.entry]));
    await vi.waitFor(() => expect(reopened.getView().state.rows.map((row) => row.status)).toEqual(['applied']));
  });

  it('SC2: an edit made from an old screen is numbered above what the server has by now', async () => {
    const sent: Entry[] = [];
    const outbox = startOutbox({ send: async (entries) => (sent.push(...entries), applied(entries)) });
    await loaded(outbox);
    await tap(outbox, 5);
    const [first] = sent;
    if (!first) throw new Error('nothing was sent');
    reads(outbox, [{ subject, field: 'score:neck', counter: 7, body: first.body }]);
    expect(outbox.getView().state.rows).toEqual([]);
    await tap(outbox, 6);
    expect(sent.map((entry) => entry.counter)).toEqual([1, 8]);
  });

  it('SC2: another seat on the same device neither shows nor sends what is not its own', async () => {
    const name = freshId();
    const first = startOutbox({ store: openOutboxStore(name), send: failing });
    await loaded(first);
    await tap(first, 3);
    first.stop();
    const send = vi.fn(async (entries: readonly Entry[]) => applied(entries));
    const second = startOutbox({ seatId: '6'.repeat(32), store: openOutboxStore(name), send });
    await loaded(second);
    expect(second.getView().state.rows).toEqual([]);
    expect(send).not.toHaveBeenCalled();
  });

  it('LV2: an acknowledged entry does not come back as waiting when the device is read while it is being removed', async () => {
    const disk = openOutboxStore(freshId());
    const outbox = startOutbox({ store: { ...disk, remove: async () => undefined } });
    await loaded(outbox);
    await tap(outbox, 4);
    const [row] = outbox.getView().state.rows;
    if (!row) throw new Error('the row is gone');
    outbox.absorb({
      roundId,
      answers: [{ subject, field: 'score:neck', counter: 1, body: row.entry.body }],
      at: 1,
      round: 'revealed',
      later: false,
    });
    expect(await disk.load(owner)).toHaveLength(1);
    await outbox.reload();
    expect(outbox.getView().state.rows).toEqual([]);
  });

  it('LV2: a device that cannot write says so, keeps the entry in memory and sends it', async () => {
    const store: OutboxStore = { load: failing, save: failing, remove: failing, close: () => undefined };
    const sent: Entry[] = [];
    let up = false;
    const outbox = startOutbox({
      store,
      send: async (entries) => (up ? (sent.push(...entries), applied(entries)) : failing()),
    });
    await loaded(outbox);
    await tap(outbox, 4);
    expect(outbox.getView()).toMatchObject({
      storeFailed: true,
      state: { rows: [{ status: 'waiting', kept: 'memory' }] },
    });
    up = true;
    outbox.wake();
    await vi.waitFor(() => expect(sent).toHaveLength(1));
  });

  it('LV2: a database closed under the page is opened anew, and nothing is lost', async () => {
    const name = freshId();
    const store = openOutboxStore(name);
    const outbox = startOutbox({ store, send: failing });
    await loaded(outbox);
    await tap(outbox, 4);
    store.close();
    await tap(outbox, 5);
    expect(outbox.getView().storeFailed).toBe(false);
    expect((await openOutboxStore(name).load(owner)).map((row) => row.entry.counter)).toEqual([1, 2]);
  });

  it('SC5: refused and late entries stay on the device with what was answered, until put away', async () => {
    const name = freshId();
    const store = openOutboxStore(name);
    const statuses = ['refused', 'late'] as const;
    const outbox = startOutbox({
      store,
      send: async (entries) =>
        entries.map(({ id, counter }) => ({
          id,
          status: statuses[counter - 1] ?? 'applied',
          code: counter === 1 ? 'out-of-scale' : null,
        })),
    });
    await loaded(outbox);
    await tap(outbox, 4);
    await tap(outbox, 5);
    const again = startOutbox({ store: openOutboxStore(name) });
    await loaded(again);
    expect(again.getView().state.rows.map(({ status, code }) => [status, code])).toEqual([
      ['refused', 'out-of-scale'],
      ['late', null],
    ]);
    for (const row of again.getView().state.rows) again.putAway(row.entry.id);
    await vi.waitFor(async () => expect(await openOutboxStore(name).load(owner)).toEqual([]));
  });

  it('SC2: a refused call keeps everything waiting and says why', async () => {
    const outbox = startOutbox({
      send: async () => {
        throw Object.assign(new Error('not-signed-in'), { data: { code: 'not-signed-in' } });
      },
    });
    await loaded(outbox);
    await tap(outbox, 4);
    expect(outbox.getView().state).toMatchObject({
      refusal: 'not-signed-in',
      rows: [{ status: 'waiting', kept: 'disk' }],
    });
  });

  it('SC2, LV2: a call without an answer is said after two and a half seconds, given up after ten and made again with the same entry', async () => {
    vi.useFakeTimers();
    try {
      let now = 0;
      const calls: { readonly ids: readonly string[]; readonly signal: AbortSignal }[] = [];
      const store: OutboxStore = {
        load: async () => [],
        save: async () => undefined,
        remove: async () => undefined,
        close: () => undefined,
      };
      const outbox = startOutbox({
        store,
        now: () => now,
        send: (entries, signal) => {
          calls.push({ ids: entries.map(({ id }) => id), signal });
          return calls.length === 3 ? Promise.resolve(applied(entries)) : new Promise(() => undefined);
        },
      });
      const pass = async (milliseconds: number) => {
        for (let step = 0; step < milliseconds; step += 50) {
          now += 50;
          await vi.advanceTimersByTimeAsync(50);
        }
      };
      await pass(50);
      void tap(outbox, 4);
      await pass(2400);
      expect(silentSince(outbox.getView())).toBeNull();
      await pass(300);
      expect(silentSince(outbox.getView())).not.toBeNull();
      expect(outbox.getView().state.rows).toMatchObject([{ status: 'waiting', kept: 'disk' }]);
      await pass(7400);
      expect(calls.map(({ signal }) => signal.aborted)).toEqual([true]);
      await pass(1100);
      expect(calls).toHaveLength(2);
      await pass(12_100);
      expect(new Set(calls.map(({ ids }) => ids.join())).size).toBe(1);
      expect(outbox.getView().state.rows).toMatchObject([{ status: 'applied' }]);
      expect(silentSince(outbox.getView())).toBeNull();
    } finally {
      vi.useRealTimers();
    }
  });

  it('LV1: waking gives up a call made before the sleep and makes it again at once', async () => {
    let now = 0;
    const signals: AbortSignal[] = [];
    const outbox = startOutbox({
      now: () => now,
      send: (entries, signal) => {
        signals.push(signal);
        return signals.length === 1 ? new Promise(() => undefined) : Promise.resolve(applied(entries));
      },
    });
    await loaded(outbox);
    void tap(outbox, 4);
    await vi.waitFor(() => expect(signals).toHaveLength(1));
    now = 500;
    outbox.wake();
    expect(signals[0]?.aborted).toBe(false);
    now = 60_000;
    outbox.wake();
    await vi.waitFor(() => expect(outbox.getView().state.rows.map((row) => row.status)).toEqual(['applied']));
    expect(signals.map(({ aborted }) => aborted)).toEqual([true, false]);
  });

  it('SC2: an edit made while the device could not be read is newer than what it held, and goes to disk when it can', async () => {
    const name = freshId();
    const before = startOutbox({ store: openOutboxStore(name), send: failing });
    await loaded(before);
    for (const value of [1, 2, 3]) await tap(before, value);
    before.stop();
    const disk = openOutboxStore(name);
    let broken = true;
    const store: OutboxStore = {
      ...disk,
      load: (owned) => (broken ? failing() : disk.load(owned)),
      save: (rows) => (broken ? failing() : disk.save(rows)),
    };
    const sent: Entry[] = [];
    const outbox = startOutbox({
      store,
      send: async (entries) => (broken ? failing() : (sent.push(...entries), applied(entries))),
    });
    await loaded(outbox);
    await tap(outbox, 7);
    expect(outbox.getView()).toMatchObject({ storeFailed: true, state: { rows: [{ kept: 'memory' }] } });
    broken = false;
    outbox.wake();
    await vi.waitFor(() => expect(sent).toHaveLength(4));
    const newest = sent.toSorted((a, b) => b.counter - a.counter)[0];
    expect(newest?.body).toMatchObject({ value: 7 });
    expect(outbox.getView().storeFailed).toBe(false);
  });

  it('BL1: once the seat has left, nothing is sent and nothing is written again', async () => {
    const name = freshId();
    const store = openOutboxStore(name);
    let release: (outcomes: EntryOutcome[]) => void = () => undefined;
    const outbox = startOutbox({ store, send: () => new Promise((resolve) => (release = resolve)) });
    await loaded(outbox);
    void tap(outbox, 4);
    await vi.waitFor(() => expect(outbox.getView().state.sending).toHaveLength(1));
    const ids = outbox.getView().state.rows.map((row) => row.entry.id);
    outbox.leave();
    await store.remove(ids);
    release(ids.map((id) => ({ id, status: 'applied', code: null })));
    await tap(outbox, 5);
    expect(await openOutboxStore(name).load(owner)).toEqual([]);
  });

  it('BL1: work that the device has given up never begins later, when the seat may have signed out', async () => {
    const name = freshId();
    const blocking = await openDB(name, 1);
    let begun = 0;
    const device = openDeviceDatabase(name);
    await expect(device.use(async () => void (begun += 1))).rejects.toThrow('does not answer');
    blocking.close();
    await openDeviceDatabase(name).use(async () => undefined);
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(begun).toBe(0);
  });

  it('SC2: a call that cannot even be made is tried again, and holds up nothing', async () => {
    let calls = 0;
    const outbox = startOutbox({
      send: (entries) => {
        calls += 1;
        if (calls === 1) throw new Error('cannot be made');
        return Promise.resolve(applied(entries));
      },
    });
    await loaded(outbox);
    await tap(outbox, 4);
    expect(outbox.getView().state).toMatchObject({ sending: [], failures: 1, rows: [{ status: 'waiting' }] });
    outbox.wake();
    await vi.waitFor(() => expect(outbox.getView().state.rows).toMatchObject([{ status: 'applied' }]));
  });

  it('SC2, LV2: however the disk fails and heals, every tap is sent, and what is said to be on disk is', async () => {
    const steps = fc.array(fc.constantFrom('tap', 'break', 'heal', 'close', 'wake'), { minLength: 3, maxLength: 14 });
    await fc.assert(
      fc.asyncProperty(steps, async (plan) => {
        const name = freshId();
        const disk = openOutboxStore(name);
        let broken = false;
        const store: OutboxStore = {
          ...disk,
          load: (owned) => (broken ? failing() : disk.load(owned)),
          save: (rows) => (broken ? failing() : disk.save(rows)),
        };
        const received = new Map<string, Entry>();
        let up = false;
        const outbox = startOutbox({
          store,
          send: async (entries) =>
            up ? (entries.forEach((entry) => received.set(entry.id, entry)), applied(entries)) : failing(),
        });
        await loaded(outbox);
        let taps = 0;
        for (const step of plan) {
          if (step === 'tap') await tap(outbox, (taps += 1) % 7);
          else if (step === 'wake') outbox.wake();
          else if (step === 'close') disk.close();
          else broken = step === 'break';
          const claimed = outbox
            .getView()
            .state.rows.filter((row) => row.kept === 'disk')
            .map((row) => row.entry.id);
          const held = (await disk.load(owner)).map((row) => row.entry.id);
          expect(claimed.filter((id) => !held.includes(id))).toEqual([]);
        }
        broken = false;
        up = true;
        outbox.wake();
        await vi.waitFor(() => expect(received.size).toBe(taps));
        outbox.stop();
      }),
      { numRuns: 25 },
    );
  });

  it('SC2: two pages of one device that tap before they hear of each other show the later tap, and from then on no count of the one is used by the other', async () => {
    const store = openOutboxStore(freshId());
    const sent: Entry[] = [];
    let now = 100;
    const page = () =>
      startOutbox({
        store,
        now: () => now,
        send: (entries) => (sent.push(...entries), Promise.resolve(applied(entries))),
      });
    const [one, other] = [page(), page()];
    await Promise.all([loaded(one), loaded(other)]);
    await tap(one, 3);
    now += 1;
    await tap(other, 5);
    // As when the word of the other page arrives, or the page is shown again.
    await Promise.all([one.reload(), other.reload()]);
    const shown = (outbox: Outbox) =>
      [...ownAnswers([], outbox.getView().state, roundId).values()].map(({ body }) => body);
    for (const outbox of [one, other]) expect(shown(outbox)).toMatchObject([{ value: 5 }]);
    for (const outbox of [one, other, one]) {
      now += 1;
      await tap(outbox, 4);
      await Promise.all([one.reload(), other.reload()]);
    }
    const counters = sent.map((entry) => entry.counter);
    expect(counters).toEqual([1, 1, 2, 3, 4]);
    for (const outbox of [one, other]) expect(shown(outbox)).toMatchObject([{ value: 4 }]);
  });
});
