import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { request } from 'node:http';
import { text } from 'node:stream/consumers';
import { io } from 'socket.io-client';
import { expect, it, vi } from 'vitest';
import { picturesFolder } from '#db/picturesFolder';
import { takeIn } from '#server/media/takeIn';
import { holdTime, timed } from '#tests/support/latency';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

async function puppiesOf({ id, owner }: Quillmarsh): Promise<readonly string[]> {
  return (await owner.api.evaluation.get.query({ id })).puppies.map((puppy) => puppy.id);
}

const statusOf = async (client: TestClient, path: string) =>
  (await fetch(`${client.url}/api/photo/${path}`, { headers: { cookie: client.cookie() } })).status;

function seat({ seats }: Quillmarsh, label: string): TestClient {
  const client = seats[label];
  if (!client) throw new Error(`no seat ${label}`);
  return client;
}

it('BL2: a stranger and a seat of another evaluation get no picture and may bring none; members of this one do', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const mine = await seedQuillmarsh(owner, { puppies: 2 });
  const theirs = await seedQuillmarsh(owner, { puppies: 2 });
  const [puppy = ''] = await puppiesOf(mine);
  const bytes = await plainPicture();
  const stranger = server.stranger();
  const foreign = seat(theirs, 'mentor');
  expect((await sendPhoto(stranger, { evaluation: mine.id, puppy, bytes })).code).toBe('not-signed-in');
  expect((await sendPhoto(foreign, { evaluation: mine.id, puppy, bytes })).code).toBe('not-found');
  const [otherPuppy = ''] = await puppiesOf(theirs);
  expect((await sendPhoto(owner, { evaluation: mine.id, puppy: otherPuppy, bytes })).code).toBe('not-found');
  const { id: photo } = await sendPhoto(seat(mine, 'photographer'), { evaluation: mine.id, puppy, bytes });
  expect((await sendPhoto(owner, { evaluation: theirs.id, puppy: otherPuppy, bytes, id: photo ?? '' })).code).toBe(
    'in-use',
  );
  for (const size of ['large', 'small']) {
    expect(await statusOf(stranger, `${photo}/${size}`)).toBe(401);
    expect(await statusOf(foreign, `${photo}/${size}`)).toBe(404);
    expect(await statusOf(seat(mine, 'mentor'), `${photo}/${size}`)).toBe(200);
    expect(await statusOf(owner, `${photo}/${size}`)).toBe(200);
  }
  expect(await statusOf(owner, `${photo}`)).toBe(404);
  expect(await statusOf(owner, `${photo}/huge`)).toBe(404);
  expect(await statusOf(owner, '../../evenstack.db/large')).toBe(404);
  expect(await statusOf(owner, `${'0'.repeat(32)}/large`)).toBe(404);
});

it('BL2: a picture from another origin, and one with a faulty address, is refused before it is read', async () => {
  await using server = await startTestServer();
  const { id, owner } = await seedQuillmarsh(await server.owner(), { puppies: 1, join: false });
  const [puppy = ''] = (await owner.api.evaluation.get.query({ id })).puppies.map((one) => one.id);
  const target = `${server.url}/api/photo/${'a'.repeat(32)}?evaluation=${id}&puppy=${puppy}&view=front&taken=1&fair=yes`;
  const post = (url: string, origin: string) =>
    fetch(url, { method: 'POST', body: Buffer.alloc(10), headers: { cookie: owner.cookie(), origin } });
  expect((await post(target, 'http://elsewhere.example')).status).toBe(403);
  for (const wrong of [
    target.replace('view=front', 'view=upside-down'),
    target.replace('&taken=1', ''),
    `${target}&extra=1`,
    target.replace('fair=yes', 'fair=maybe'),
  ]) {
    expect((await post(wrong, server.url)).status).toBe(400);
  }
});

it('the keeper of a view is chosen before scores are seen: refused once a round was revealed, and so is moving a keeper', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, owner } = quillmarsh;
  const [puppy = '', other = ''] = await puppiesOf(quillmarsh);
  const send = async (shade: number) =>
    (await sendPhoto(owner, { evaluation: id, puppy, bytes: await plainPicture(shade), taken: shade })).id ?? '';
  const photos = [await send(1), await send(2), await send(3)];
  const keepers = async () =>
    (await owner.api.photo.list.query({ id })).photos.filter((photo) => photo.keeper).map((photo) => photo.id);
  await owner.api.photo.keep.mutate({ id, photoId: photos[0] ?? '' });
  await owner.api.photo.keep.mutate({ id, photoId: photos[1] ?? '' });
  expect(await keepers()).toEqual([photos[1]]);
  await playToReveal(quillmarsh);
  await expect(owner.api.photo.keep.mutate({ id, photoId: photos[0] ?? '' })).rejects.toThrow('wrong-phase');
  await expect(
    owner.api.photo.place.mutate({ id, photoId: photos[1] ?? '', puppyId: other, view: 'left-side' }),
  ).rejects.toThrow('wrong-phase');
  expect(await keepers()).toEqual([photos[1]]);
  expect((await owner.api.photo.list.query({ id })).may).toEqual({ add: true, keep: false, list: true });
});

it('BL2: whoever only reads or only stands at the table brings no picture, and a seat removes its own only', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id, owner } = quillmarsh;
  const [puppy = ''] = await puppiesOf(quillmarsh);
  const { id: seatId } = await owner.api.setup.saveSeat.mutate({
    id,
    seatId: null,
    seat: { label: 'helper', kind: 'none', leads: false, picks: false, interest: '' },
  });
  const { token } = await owner.api.setup.invite.mutate({ id, seatId });
  const helper = server.stranger();
  await helper.api.session.join.mutate({ token });
  expect((await sendPhoto(helper, { evaluation: id, puppy, bytes: await plainPicture() })).code).toBe('not-allowed');
  const { id: photo } = await sendPhoto(seat(quillmarsh, 'photographer'), {
    evaluation: id,
    puppy,
    bytes: await plainPicture(),
  });
  await expect(seat(quillmarsh, 'mentor').api.photo.remove.mutate({ id, photoId: photo ?? '' })).rejects.toThrow(
    'not-allowed',
  );
  await expect(seat(quillmarsh, 'mentor').api.photo.saveList.mutate({ id, shots: ['front'] })).rejects.toThrow(
    'not-allowed',
  );
  await owner.api.photo.saveList.mutate({ id, shots: ['front', 'bite'] });
  expect((await seat(quillmarsh, 'mentor').api.photo.list.query({ id })).shots).toEqual(['front', 'bite']);
  await seat(quillmarsh, 'photographer').api.photo.remove.mutate({ id, photoId: photo ?? '' });
});

it('LV1: a new picture rings at every member’s door, with no word of whose it is', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id } = quillmarsh;
  const [puppy = ''] = await puppiesOf(quillmarsh);
  const mentor = seat(quillmarsh, 'mentor');
  const socket = io(server.url, {
    transports: ['websocket'],
    extraHeaders: { cookie: mentor.cookie(), origin: server.url },
  });
  await new Promise<void>((ready) => socket.on('connect', () => ready()));
  const rung = new Promise((ring) => socket.on('changed', ring));
  let photo: string | null = null;
  const bytes = await plainPicture(5, { width: 2048, height: 1536 });
  const took = await timed(async () => {
    ({ id: photo } = await sendPhoto(seat(quillmarsh, 'photographer'), { evaluation: id, puppy, bytes }));
    await rung;
  });
  holdTime('a new picture heard of', took, 2000);
  expect(JSON.stringify(await rung)).not.toContain(puppy);
  expect((await mentor.api.photo.list.query({ id })).photos.map((one) => one.id)).toEqual([photo]);
  socket.close();
});

it('SC2: the server confirms a picture by its id and by the hash of the bytes it has; others under the same id are refused and kept nowhere', async () => {
  await using server = await startTestServer();
  const { id: evaluation, owner } = await seedQuillmarsh(await server.owner(), { puppies: 1, join: false });
  const [puppy = ''] = (await owner.api.evaluation.get.query({ id: evaluation })).puppies.map((one) => one.id);
  const [bytes, others] = [await plainPicture(1), await plainPicture(100)];
  const hashOf = (data: Uint8Array) => createHash('sha256').update(data).digest('hex');
  const [id, later] = ['a'.repeat(32), 'b'.repeat(32)];
  const send = (sending: { readonly id: string; readonly bytes: Uint8Array; readonly hash: string }) =>
    sendPhoto(owner, { evaluation, puppy, ...sending });
  const damaged = await send({ id, bytes: bytes.subarray(0, -1), hash: hashOf(bytes) });
  expect(damaged.code).toBe('file-damaged');
  expect((await owner.api.photo.list.query({ id: evaluation })).photos).toEqual([]);
  const first = await send({ id, bytes, hash: hashOf(bytes) });
  const again = await send({ id, bytes, hash: hashOf(bytes) });
  expect([first.kept, again.kept]).toEqual([
    [id, hashOf(bytes)],
    [id, hashOf(bytes)],
  ]);
  const twin = await send({ id: later, bytes, hash: hashOf(bytes) });
  expect([twin.kept, twin.id]).toEqual([[later, hashOf(bytes)], id]);
  expect((await send({ id, bytes: others, hash: hashOf(others) })).code).toBe('in-use');
  expect((await owner.api.photo.list.query({ id: evaluation })).photos).toHaveLength(1);
});

/** Sends half of a picture, lets something happen, and sends the rest; what the server says then. */
async function sendInHalves(
  client: TestClient,
  { evaluation, puppy }: { readonly evaluation: string; readonly puppy: string },
  meanwhile: () => Promise<unknown>,
): Promise<string> {
  const bytes = await plainPicture(9);
  const query = new URLSearchParams({ evaluation, puppy, view: 'front', taken: '1', fair: 'yes' });
  const headers = {
    origin: client.url,
    cookie: client.cookie(),
    'content-type': 'image/jpeg',
    'content-length': String(bytes.length),
  };
  const sending = request(`${client.url}/api/photo/${'c'.repeat(32)}?${query}`, { method: 'POST', headers });
  const answered = new Promise<string>((done, fail) => {
    sending.once('error', fail);
    sending.once('response', (response) => void text(response).then(done, fail));
  });
  await new Promise((sent) => sending.write(bytes.subarray(0, 200), sent));
  await meanwhile();
  sending.end(bytes.subarray(200));
  return answered;
}

it('BL2, BL9: whoever loses the seat while a picture is on its way brings none: the right is decided anew when all of it is there', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 1 });
  const { id, owner } = quillmarsh;
  const [puppy = ''] = await puppiesOf(quillmarsh);
  const seatId =
    (await owner.api.evaluation.get.query({ id })).seats.find((one) => one.label === 'photographer')?.id ?? '';
  const said = await sendInHalves(seat(quillmarsh, 'photographer'), { evaluation: id, puppy }, async () => {
    // Else the seat could be gone before the server has so much as begun to read.
    await vi.waitFor(() => expect(readdirSync(picturesFolder(server.runtime.db))).toHaveLength(1));
    await owner.api.setup.reissue.mutate({ id, seatId });
  });
  expect(JSON.parse(said)).toMatchObject({ error: { data: { code: 'not-signed-in' } } });
  expect((await owner.api.photo.list.query({ id })).photos).toEqual([]);
  expect(readdirSync(picturesFolder(server.runtime.db))).toEqual([]);
});

it('BL2, BL9: nor does whoever loses it while the picture is written anew, and no file of it is left', async () => {
  const during: (() => Promise<unknown>)[] = [];
  await using server = await startTestServer({
    intake: async (upload) => {
      const media = await takeIn(upload);
      for (const happens of during) await happens();
      return media;
    },
  });
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 1 });
  const { id, owner } = quillmarsh;
  const [puppy = ''] = await puppiesOf(quillmarsh);
  const seatId =
    (await owner.api.evaluation.get.query({ id })).seats.find((one) => one.label === 'photographer')?.id ?? '';
  during.push(() => owner.api.setup.reissue.mutate({ id, seatId }));
  expect(
    (await sendPhoto(seat(quillmarsh, 'photographer'), { evaluation: id, puppy, bytes: await plainPicture() })).code,
  ).toBe('not-signed-in');
  expect((await owner.api.photo.list.query({ id })).photos).toEqual([]);
  expect(readdirSync(picturesFolder(server.runtime.db))).toEqual([]);
});
