import { expect, it } from 'vitest';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

it('BL2: before the record is sealed there is no note for a home, and none but the owner makes its link', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'revealed');
  const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  await expect(owner.api.home.link.mutate({ id, puppyId })).rejects.toMatchObject(code('wrong-phase'));
  await expect(seats['mentor']?.api.home.link.mutate({ id, puppyId })).rejects.toMatchObject(code('not-allowed'));
  await expect(server.stranger().api.home.read.mutate({ token: 'x'.repeat(43) })).rejects.toMatchObject(code('link-dead'));
});

it('BL2: a home reads its own puppy’s note by its link, again and again, and nothing else: no score, no seat, no littermate', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'sealed');
  const { puppies, seats } = await owner.api.evaluation.get.query({ id });
  const [puppy, ...littermates] = puppies;
  if (!puppy) throw new Error('no puppy');
  const { token } = await owner.api.home.link.mutate({ id, puppyId: puppy.id });
  const home = server.stranger();
  const note = await home.api.home.read.mutate({ token });
  expect(note).toMatchObject({ litterName: 'Quillmarsh autumn', puppy: { name: puppy.name }, seenOn: '2026-09-12', lookAgain: [{ key: 'twelve-weeks', day: '2026-10-10' }, {}, {}, {}] });
  expect(Object.keys(note).toSorted()).toEqual(['behaviour', 'breed', 'chipDigits', 'findings', 'later', 'litterName', 'lookAgain', 'normal', 'puppy', 'purpose', 'seenOn', 'unexamined', 'weight', 'whelpedOn']);
  // Every seat answered every check with the first answer, which is normal.
  expect([note.findings, note.unexamined]).toEqual([[], []]);
  expect(note.normal.length).toBeGreaterThan(9);
  const received = home.received.join('');
  for (const other of [...littermates.map(({ name }) => name), ...seats.map(({ label }) => `"${label}"`), 'Canary', 'set-cookie']) expect(received).not.toContain(other);
  expect(await home.api.home.read.mutate({ token })).toEqual(note);
  await expect(home.api.evaluation.get.query({ id })).rejects.toMatchObject(code('not-signed-in'));
});

it('BL2: a fresh link ends the one before, and an ended one reads nothing', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'sealed');
  const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const first = await owner.api.home.link.mutate({ id, puppyId });
  const second = await owner.api.home.link.mutate({ id, puppyId });
  await expect(server.stranger().api.home.read.mutate(first)).rejects.toMatchObject(code('link-dead'));
  expect(await owner.api.home.list.query({ id })).toEqual([puppyId]);
  await owner.api.home.end.mutate({ id, puppyId });
  await expect(server.stranger().api.home.read.mutate(second)).rejects.toMatchObject(code('link-dead'));
  expect(await owner.api.home.list.query({ id })).toEqual([]);
});
