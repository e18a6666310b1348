import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

it('BL2: before the record is sealed there is no note for a home, and none but the owner makes its link', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'revealed');
  const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  await expect(
    owner.api.home.link.mutate({ id, puppyId, along: { contact: '', photoId: null } }),
  ).rejects.toMatchObject(code('wrong-phase'));
  await expect(
    seats['mentor']?.api.home.link.mutate({ id, puppyId, along: { contact: '', photoId: null } }),
  ).rejects.toMatchObject(code('not-allowed'));
  await expect(server.stranger().api.home.read.mutate({ token: 'x'.repeat(43) })).rejects.toMatchObject(
    code('link-dead'),
  );
});

it('BL2: a home reads its own puppy’s note by its link, again and again, and nothing else: no score, no seat, no littermate', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'sealed');
  const { puppies, seats } = await owner.api.evaluation.get.query({ id });
  const [puppy, ...littermates] = puppies;
  if (!puppy) throw new Error('no puppy');
  const { token } = await owner.api.home.link.mutate({ id, puppyId: puppy.id, along: { contact: '', photoId: null } });
  const home = server.stranger();
  const note = await home.api.home.read.mutate({ token });
  expect(note).toMatchObject({
    litterName: 'Quillmarsh autumn',
    puppy: { name: puppy.name },
    seenOn: '2026-09-12',
    lookAgain: [{ key: 'twelve-weeks', day: '2026-10-10' }, {}, {}, {}],
  });
  expect(Object.keys(note).toSorted()).toEqual([
    'behaviour',
    'breed',
    'chipDigits',
    'contact',
    'findings',
    'later',
    'litterName',
    'lookAgain',
    'normal',
    'picture',
    'puppy',
    'purpose',
    'seenOn',
    'strengths',
    'toShow',
    'unexamined',
    'weight',
    'whelpedOn',
  ]);
  // Every seat answered every check with the first answer, which is normal.
  expect([note.findings, note.unexamined]).toEqual([[], []]);
  expect(note.normal.length).toBeGreaterThan(9);
  const received = home.received.join('');
  for (const other of [
    ...littermates.map(({ name }) => name),
    ...seats.map(({ label }) => `"${label}"`),
    'Canary',
    'set-cookie',
  ])
    expect(received).not.toContain(other);
  expect(await home.api.home.read.mutate({ token })).toEqual(note);
  await expect(home.api.evaluation.get.query({ id })).rejects.toMatchObject(code('not-signed-in'));
});

it('BL2: a fresh link ends the one before, and an ended one reads nothing', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'sealed');
  const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const first = await owner.api.home.link.mutate({ id, puppyId, along: { contact: '', photoId: null } });
  const second = await owner.api.home.link.mutate({ id, puppyId, along: { contact: '', photoId: null } });
  await expect(server.stranger().api.home.read.mutate(first)).rejects.toMatchObject(code('link-dead'));
  expect(await owner.api.home.list.query({ id })).toEqual([{ puppyId, contact: '', photoId: null }]);
  await owner.api.home.end.mutate({ id, puppyId });
  await expect(server.stranger().api.home.read.mutate(second)).rejects.toMatchObject(code('link-dead'));
  expect(await owner.api.home.list.query({ id })).toEqual([]);
});

it('BL2: a picture goes along with its own puppy alone, by the owner’s choice, and the preview is what the home reads', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'revealed');
  const [puppy, other] = (await owner.api.evaluation.get.query({ id })).puppies;
  const puppyId = puppy?.id ?? '';
  const send = async (of: string | undefined, shade: number) =>
    (
      await sendPhoto(owner, {
        evaluation: id,
        puppy: of ?? '',
        bytes: await plainPicture(shade),
        id: systemRandom.id(),
      })
    ).id ?? '';
  const [own, foreign, gone] = [await send(puppy?.id, 1), await send(other?.id, 99), await send(puppy?.id, 199)];
  await owner.api.photo.remove.mutate({ id, photoId: gone });
  for (const { slotId } of (await owner.api.board.get.query({ id })).slots)
    await owner.api.decision.make.mutate({ id, slotId, puppyId: null, unexamined: [], reason: '', preference: false });
  await owner.api.decision.seal.mutate({ id });
  const along = { contact: 'Quillmarsh, 01 23', photoId: own };
  const before = server.runtime.db.$client.prepare('SELECT count(*) FROM home_link').pluck().get();
  for (const photoId of [foreign, gone, systemRandom.id()]) {
    await expect(owner.api.home.link.mutate({ id, puppyId, along: { ...along, photoId } })).rejects.toMatchObject(
      code('not-found'),
    );
    await expect(owner.api.home.preview.query({ id, puppyId, along: { ...along, photoId } })).rejects.toMatchObject(
      code('not-found'),
    );
  }
  await expect(seats['mentor']?.api.home.preview.query({ id, puppyId, along })).rejects.toMatchObject(
    code('not-allowed'),
  );
  expect(server.runtime.db.$client.prepare('SELECT count(*) FROM home_link').pluck().get()).toBe(before);
  const { token } = await owner.api.home.link.mutate({ id, puppyId, along });
  const note = await server.stranger().api.home.read.mutate({ token });
  expect(note.contact).toBe(along.contact);
  expect(note.picture).toMatch(/^data:image\/webp;base64,[A-Za-z0-9+/]{40,}=*$/);
  expect(await owner.api.home.preview.query({ id, puppyId, along })).toEqual(note);
});
