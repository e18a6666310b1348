import { io, type Socket } from 'socket.io-client';
import { expect, it, vi } from 'vitest';
import { liveEventSchema, type LiveEvent } from '#lib/contract/liveEvent';
import { systemRandom } from '#server/random';
import { holdTime, timed } from '#tests/support/latency';
import { playToReveal, scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

type Ear = { readonly socket: Socket; readonly heard: LiveEvent[]; readonly other: unknown[] };

async function listen(server: TestServer, client: Pick<TestClient, 'cookie'>): Promise<Ear> {
  const socket = io(server.url, {
    transports: ['websocket'],
    reconnection: false,
    extraHeaders: { cookie: client.cookie(), origin: server.url },
  });
  const heard: LiveEvent[] = [];
  const other: unknown[] = [];
  socket.onAny((name: string, event: unknown) =>
    name === 'changed' ? heard.push(liveEventSchema.parse(event)) : other.push(name),
  );
  await new Promise<void>((ready, refuse) => {
    socket.on('connect', () => ready());
    socket.on('connect_error', refuse);
  });
  return { socket, heard, other };
}

async function until(condition: () => boolean): Promise<void> {
  await vi.waitFor(() => expect(condition()).toBe(true), { interval: 5 });
}

it.each([
  ['websocket', 'http://elsewhere.example'],
  ['websocket', undefined],
  ['polling', 'http://elsewhere.example'],
  ['polling', undefined],
] as const)('BL3: a socket by %s from origin %s is refused', async (transport, origin) => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const extraHeaders = { cookie: owner.cookie(), ...(origin ? { origin } : {}) };
  const socket = io(server.url, { transports: [transport], reconnection: false, extraHeaders });
  const refused = await new Promise<boolean>((resolve) => {
    socket.on('connect', () => resolve(false));
    socket.on('connect_error', () => resolve(true));
  });
  socket.close();
  expect(refused).toBe(true);
});

it('BL3: a socket without a session is refused, and one that has left is cut', async () => {
  await using server = await startTestServer();
  await expect(listen(server, server.stranger())).rejects.toThrow();
  const { seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const ear = await listen(server, mentor);
  const cut = new Promise<void>((resolve) => ear.socket.on('disconnect', () => resolve()));
  const took = await timed(async () => {
    await mentor.api.session.leave.mutate();
    await cut;
  });
  expect(ear.socket.connected).toBe(false);
  holdTime('a socket cut after leaving', took, 1000);
});

it('BL3, BL4: others’ scores ring no bell here, the seat’s own ring its own devices, and a bell holds ids, phase and version only', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor, photographer } = seats;
  if (!mentor || !photographer) throw new Error('no seats');
  await owner.api.evaluation.openRound.mutate({ id });
  const [watching, scoring] = [await listen(server, photographer), await listen(server, mentor)];
  await scoreCard(mentor, id, steadyCell);
  await owner.api.evaluation.moveTable.mutate({
    id,
    showingId: (await owner.api.evaluation.get.query({ id })).round?.showings[1]?.id ?? '',
  });
  await until(() => watching.heard.length > 0 && scoring.heard.some((event) => event.audience === 'all'));
  expect(watching.heard.map((event) => event.audience)).toEqual(['all']);
  expect(scoring.heard.filter((event) => event.audience === 'own').length).toBeGreaterThan(0);
  expect([...watching.other, ...scoring.other]).toEqual([]);
  watching.socket.close();
  scoring.socket.close();
});

it('SC4: when the bell rings, the change is on disk for whoever asks', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  const phases: string[] = [];
  server.runtime.hub.subscribe(({ event }) => {
    expect(server.runtime.db.$client.inTransaction).toBe(false);
    const row = server.runtime.db.$client
      .prepare<[string], { phase: string }>('SELECT phase FROM evaluation WHERE id = ?')
      .get(event.evaluation);
    phases.push(`${event.phase} ${row?.phase}`);
  });
  await playToReveal({ id, owner, seats, links: {} });
  expect(phases).toContain('scoring scoring');
  expect(phases).toContain('deciding deciding');
  expect(phases.every((pair) => new Set(pair.split(' ')).size === 1)).toBe(true);
});

it('LV1: versions rise by one per change, and a client that slept ends where a fresh load is', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  const { mentor } = seats;
  if (!mentor) throw new Error('no mentor');
  await owner.api.evaluation.openRound.mutate({ id });
  const ear = await listen(server, mentor);
  const before = (await mentor.api.evaluation.get.query({ id })).versions.all;
  const showings = (await owner.api.evaluation.get.query({ id })).round?.showings ?? [];
  for (const showing of showings) await owner.api.evaluation.moveTable.mutate({ id, showingId: showing.id });
  await until(() => ear.heard.length === showings.length);
  expect(ear.heard.map((event) => event.version)).toEqual(showings.map((_, index) => before + index + 1));
  ear.socket.close();
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: showings[0]?.puppyId ?? '', reason: 'asleep' });
  const back = await listen(server, mentor);
  const view = await mentor.api.evaluation.get.query({ id });
  expect(view.puppies.find((puppy) => puppy.id === showings[0]?.puppyId)?.withdrawn).toBe(true);
  expect(view.versions.all).toBe(before + showings.length + 1);
  back.socket.close();
});

it('LV1: when the table moves every device hears which showing is up', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  await owner.api.evaluation.openRound.mutate({ id });
  const ears = await Promise.all(Object.values(seats).map((seat) => listen(server, seat)));
  const showings = (await owner.api.evaluation.get.query({ id })).round?.showings ?? [];
  const delays: number[] = [];
  for (let move = 0; move < 20; move += 1) {
    const showing = showings[move % showings.length];
    delays.push(
      await timed(async () => {
        await Promise.all([
          owner.api.evaluation.moveTable.mutate({ id, showingId: showing?.id ?? '' }),
          until(() => ears.every((ear) => ear.heard.length > move)),
        ]);
      }),
    );
    expect(ears.every((ear) => ear.heard.at(-1)?.table === showing?.id)).toBe(true);
  }
  for (const ear of ears) ear.socket.close();
  const median = delays.toSorted((a, b) => a - b)[10] ?? Number.POSITIVE_INFINITY;
  holdTime('a table’s move heard by every device, median', median, 150);
});

it('SC2: a note sent twice stands once, and rings for all', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id, owner, seats } = quillmarsh;
  await playToReveal(quillmarsh);
  const { mentor, photographer } = seats;
  if (!mentor || !photographer) throw new Error('no seats');
  const ear = await listen(server, photographer);
  const note = {
    id,
    noteId: systemRandom.id(),
    slotId: null,
    puppyId: null,
    otherPuppyId: null,
    criterion: null,
    text: 'stands well behind',
  };
  await mentor.api.board.addNote.mutate(note);
  await mentor.api.board.addNote.mutate(note);
  await until(() => ear.heard.length > 0);
  expect((await owner.api.board.notes.query({ id })).map((one) => one.text)).toEqual(['stands well behind']);
  ear.socket.close();
});
