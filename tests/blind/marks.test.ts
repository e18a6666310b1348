import { io } from 'socket.io-client';
import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { carefulPicture } from '#lib/photo/measureRatio';
import { lockCard } from '#tests/support/lockCard';
import { playToReveal, scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

type Mark = { readonly note: string; readonly x: number; readonly times: number };

function seat({ seats }: Quillmarsh, label: string): TestClient {
  const client = seats[label];
  if (!client) throw new Error(`no seat ${label}`);
  return client;
}

async function withPhoto(server: TestServer): Promise<Quillmarsh & { readonly photoId: string }> {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, owner } = quillmarsh;
  const puppy = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const sent = await sendPhoto(owner, { evaluation: id, puppy, bytes: await plainPicture(), id: 'f'.repeat(32) });
  return { ...quillmarsh, photoId: sent.id ?? '' };
}

/** Ids that only the maker's seat ever hears of: fixed, so that two worlds differ in values alone. */
const ids = (label: string, number: number) => `${label.length}${number}`.padEnd(32, 'c');

async function mark(
  client: TestClient,
  { id, photoId }: { readonly id: string; readonly photoId: string },
  { note, x, times }: Mark,
): Promise<void> {
  for (let number = 0; number < times; number += 1) {
    const pointer = { kind: 'arrow', from: { x, y: 0.25 }, to: { x: 0.5, y: 0.5 }, note } as const;
    await client.api.photo.point.mutate({ id, photoId, pointerId: ids(note, number), pointer });
    const placing = { nose: { x, y: 0.3 }, stop: { x: 0.6, y: 0.4 }, occiput: { x: 0.9, y: 0.4 } };
    await client.api.photo.measure.mutate({
      id,
      photoId,
      measurementId: ids(note, number + 10),
      measurement: { ratio: 'muzzle-skull', placing, sizeMillimetres: 130, setting: carefulPicture },
    });
  }
}

it('BL1: marks and measurements of others are told to nobody before reveal, by no answer and no bell; after it to everybody', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withPhoto(server);
  const { id, owner } = quillmarsh;
  const mentor = seat(quillmarsh, 'mentor');
  const watchers = [owner, seat(quillmarsh, 'photographer'), seat(quillmarsh, 'co-owner')];
  const bells: string[] = [];
  const socket = io(server.url, {
    transports: ['websocket'],
    extraHeaders: { cookie: owner.cookie(), origin: server.url },
  });
  await new Promise<void>((ready) => socket.on('connect', () => ready()));
  // Made before the first round opens, while it is open, and after it closed.
  await mark(mentor, quillmarsh, { note: 'quince early', x: 0.123, times: 1 });
  await owner.api.evaluation.openRound.mutate({ id });
  socket.on('changed', (event: unknown) => bells.push(JSON.stringify(event)));
  await mark(mentor, quillmarsh, { note: 'quince on the hock', x: 0.123, times: 2 });
  await mark(owner, quillmarsh, { note: 'my own', x: 0.4, times: 1 });
  for (const client of watchers) {
    const heard = JSON.stringify(await client.api.photo.marks.query({ id }));
    expect(heard).not.toMatch(/quince|0\.123/);
  }
  expect((await owner.api.photo.marks.query({ id })).pointers.map((one) => one.note)).toEqual(['my own']);
  expect((await mentor.api.photo.marks.query({ id })).pointers).toHaveLength(3);
  const { versions } = await owner.api.evaluation.get.query({ id });
  await mark(mentor, quillmarsh, { note: 'quince once more', x: 0.123, times: 1 });
  expect((await owner.api.evaluation.get.query({ id })).versions.all).toBe(versions.all);
  for (const client of [owner, ...Object.values(quillmarsh.seats)]) await scoreCard(client, id, steadyCell);
  for (const client of [...Object.values(quillmarsh.seats), owner]) await lockCard(client, id);
  expect(JSON.stringify(await owner.api.photo.marks.query({ id }))).not.toContain('quince');
  expect(bells.filter((bell) => bell.includes('"all"')).length).toBeGreaterThan(0);
  expect(bells.join('')).not.toMatch(/quince|f{32}/);
  await owner.api.evaluation.revealRound.mutate({ id });
  for (const client of watchers) {
    const shown = await client.api.photo.marks.query({ id });
    expect(shown.pointers.map((one) => one.note)).toEqual(
      expect.arrayContaining(['quince early', 'quince on the hock', 'my own']),
    );
    expect(shown.measurements).toHaveLength(5);
  }
  socket.close();
});

it('BL9: whoever opens a reissued seat reads no mark of the earlier device before reveal', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withPhoto(server);
  const { id, owner } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  await mark(seat(quillmarsh, 'mentor'), quillmarsh, { note: 'quince', x: 0.2, times: 1 });
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((one) => one.label === 'mentor')?.id ?? '';
  const { token } = await owner.api.setup.reissue.mutate({ id, seatId });
  const later = server.stranger();
  await later.api.session.join.mutate({ token });
  expect(await later.api.photo.marks.query({ id })).toEqual({ pointers: [], measurements: [] });
  await mark(later, quillmarsh, { note: 'mine', x: 0.2, times: 1 });
  expect((await later.api.photo.marks.query({ id })).pointers.map((one) => one.note)).toEqual(['mine']);
});

it('BL9: in an anonymous panel nobody learns whose a mark is after the reveal, save one’s own', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withPhoto(server);
  const { id, owner } = quillmarsh;
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order } =
    await owner.api.setup.get.query({ id });
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: [],
    order,
    plan: { ...usualPlan, discussion: 'anonymous' },
  });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await mark(seat(quillmarsh, 'mentor'), quillmarsh, { note: 'quince', x: 0.2, times: 1 });
  await mark(seat(quillmarsh, 'photographer'), quillmarsh, { note: 'mine', x: 0.3, times: 1 });
  for (const client of [...Object.values(quillmarsh.seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  const view = await seat(quillmarsh, 'photographer').api.evaluation.get.query({ id });
  const shown = await seat(quillmarsh, 'photographer').api.photo.marks.query({ id });
  expect(shown.pointers.map((one) => one.note).toSorted()).toEqual(['mine', 'quince']);
  const told = JSON.stringify(shown);
  expect(view.seats.map((one) => one.id).filter((one) => told.includes(one))).toEqual([view.viewer.seatId]);
});

/** What a watching seat receives in a world where the mentor marks the picture so. */
async function world(given: Mark): Promise<readonly string[]> {
  await using server = await startTestServer({ seed: 'marks' });
  const quillmarsh = await withPhoto(server);
  const { id, owner } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  const watcher = seat(quillmarsh, 'photographer');
  const look = async () => {
    await watcher.api.photo.marks.query({ id });
    await watcher.api.photo.list.query({ id });
    await watcher.api.evaluation.get.query({ id });
    await watcher.api.record.list.query({ id });
  };
  await look();
  await mark(seat(quillmarsh, 'mentor'), quillmarsh, given);
  await look();
  await mark(watcher, quillmarsh, { note: 'the watcher', x: 0.5, times: 1 });
  await look();
  return watcher.received.map((text) => text.replace(/\["date","[^"]*"\]/, '["date"]'));
}

it('BL4: what a seat receives is the same to the byte, whatever another seat marks and measures, and however often', async () => {
  const one = await world({ note: 'short', x: 0.1, times: 1 });
  const other = await world({ note: 'a much longer note about the rear', x: 0.87654, times: 4 });
  expect(one.length).toBeGreaterThan(20);
  expect(other).toEqual(one);
});

it('BL1: a mark taken back is shown to nobody any more, and only its own seat takes it back', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withPhoto(server);
  const { id, owner } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  const mentor = seat(quillmarsh, 'mentor');
  await mark(mentor, quillmarsh, { note: 'quince', x: 0.2, times: 1 });
  await expect(owner.api.photo.unpoint.mutate({ id, pointerId: ids('quince', 0) })).rejects.toThrow('not-found');
  await mentor.api.photo.unpoint.mutate({ id, pointerId: ids('quince', 0) });
  await playToReveal(quillmarsh).catch(() => undefined);
  expect((await mentor.api.photo.marks.query({ id })).pointers).toEqual([]);
});

it('SC3: a mark and a measurement are never changed and never deleted', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withPhoto(server);
  await mark(seat(quillmarsh, 'mentor'), quillmarsh, { note: 'quince', x: 0.2, times: 1 });
  const { $client } = server.runtime.db;
  for (const table of ['photo_pointer', 'photo_measurement']) {
    expect(() => $client.exec(`DELETE FROM ${table}`)).toThrow('append-only');
    expect(() => $client.exec(`UPDATE ${table} SET at = 1`)).toThrow('append-only');
  }
});

it('SC3: where a person is removed the words of its marks go, and the marks stay', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withPhoto(server);
  const { id, owner } = quillmarsh;
  await mark(seat(quillmarsh, 'mentor'), quillmarsh, { note: 'quince', x: 0.2, times: 1 });
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((one) => one.label === 'mentor')?.id ?? '';
  await owner.api.person.remove.mutate({ id, seatId });
  const rows = server.runtime.db.$client.prepare('SELECT note, x FROM photo_pointer').all();
  expect(rows).toEqual([{ note: 'removed', x: 0.2 }]);
});

it('BL5: marks and measurements made after the first reveal are marked as not blind, and those from before it are not', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withPhoto(server);
  const { id, owner } = quillmarsh;
  const mentor = seat(quillmarsh, 'mentor');
  await mark(mentor, quillmarsh, { note: 'before', x: 0.2, times: 1 });
  server.pass(60_000);
  await playToReveal(quillmarsh);
  server.pass(60_000);
  await mark(mentor, quillmarsh, { note: 'afterwards', x: 0.3, times: 1 });
  const { pointers, measurements } = await mentor.api.photo.marks.query({ id });
  expect(pointers.map(({ note, blind }) => [note, blind])).toEqual([
    ['before', true],
    ['afterwards', false],
  ]);
  expect(measurements.map(({ blind }) => blind)).toEqual([true, false]);
  expect((await owner.api.photo.marks.query({ id })).pointers.find((one) => one.note === 'before')?.blind).toBe(true);
});
