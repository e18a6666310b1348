import { expect, it } from 'vitest';
import { evaluationFileSchema } from '#lib/contract/evaluationFile';
import { usualPlan } from '#lib/contract/plan';
import { systemRandom } from '#server/random';
import { fetchEvaluation, sha256, textOf, unzipped } from '#tests/support/carry';
import { lockCard } from '#tests/support/lockCard';
import { playWholeDay } from '#tests/support/playWholeDay';
import { playToReveal, scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import { startTestServer } from '#tests/support/startTestServer';

it('BL1: no evaluation leaves while anything of it is still to be revealed: not before, during or between rounds, nor beside an open second look', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const codeNow = async () => (await fetchEvaluation(owner, id)).code;
  expect(await codeNow()).toBe('wrong-phase');
  await owner.api.evaluation.openRound.mutate({ id });
  for (const client of [owner, ...Object.values(seats)]) await scoreCard(client, id, steadyCell);
  expect(await codeNow()).toBe('wrong-phase');
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  expect((await owner.api.evaluation.get.query({ id })).round?.state).toBe('closed');
  expect(await codeNow()).toBe('wrong-phase');
  await owner.api.evaluation.revealRound.mutate({ id });
  expect(await codeNow()).toBeNull();

  const view = await owner.api.evaluation.get.query({ id });
  const criterion = view.sheet.criteria.find((one) => !one.handsOnly)?.key ?? '';
  await owner.api.evaluation.openSecondRound.mutate({ id, cells: [{ puppyId: view.puppies[0]?.id ?? '', criterion }] });
  expect(await codeNow()).toBe('still-open');
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  expect(await codeNow()).toBe('still-open');
  await owner.api.evaluation.revealRound.mutate({ id });
  expect(await codeNow()).toBeNull();

  const pair = { firstPuppyId: view.puppies[0]?.id ?? '', secondPuppyId: view.puppies[1]?.id ?? '' };
  await owner.api.look.open.mutate({ id, slotId: view.slots[0]?.id ?? '', medium: 'table', pairs: [pair] });
  expect(await codeNow()).toBe('still-open');
});

it('BL2: only the owner takes an evaluation along; a seat may not, and to a stranger or another evaluation’s seat it is not there', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const mine = await seedQuillmarsh(owner, { puppies: 2 });
  const theirs = await seedQuillmarsh(owner, { puppies: 2 });
  await playToReveal(mine);
  const codes = await Promise.all(
    [...Object.values(mine.seats), theirs.seats['mentor'] ?? owner, server.stranger()].map(
      async (client) => (await fetchEvaluation(client, mine.id)).code,
    ),
  );
  expect(codes).toEqual(['not-allowed', 'not-allowed', 'not-allowed', 'not-found', 'not-signed-in']);
  expect((await fetchEvaluation(owner, 'f'.repeat(32))).code).toBe('not-found');
});

it('BL9: of an anonymous panel there is no such file: it would say who gave which score', async () => {
  await using server = await startTestServer();
  const day = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order } =
    await day.owner.api.setup.get.query({ id: day.id });
  await day.owner.api.setup.save.mutate({
    id: day.id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: [],
    order,
    plan: { ...usualPlan, discussion: 'anonymous' },
  });
  await playToReveal(day);
  expect((await fetchEvaluation(day.owner, day.id)).code).toBe('anonymous');
});

it('SC3: a file holds a whole day and its pictures by their hashes, and no secret of anybody', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await playWholeDay(server);
  const { bytes, status } = await fetchEvaluation(owner, id);
  expect(status).toBe(200);
  const text = textOf(await unzipped(bytes));
  const file = evaluationFileSchema.parse(text);
  const counts = Object.fromEntries(Object.entries(file.rows).map(([table, rows]) => [table, rows.length]));
  expect(counts).toMatchObject({
    evaluation: 1,
    puppy: 4,
    seat: 4,
    round: 2,
    snapshot: 2,
    look: 1,
    look_answer: 3,
    decision: 3,
    clearance: 3,
    addendum: 4,
    withdrawal: 1,
    home_link: 1,
    removal: 1,
    round_cell: 2,
  });
  expect(file.lines.length).toBe(file.origin.lines);
  const { $client } = server.runtime.db;
  const secrets = [
    'SELECT token_hash FROM device',
    'SELECT token_hash FROM link',
    'SELECT token_hash FROM home_link',
  ].flatMap((sql) => $client.prepare<[], string>(sql).pluck().all());
  const written = JSON.stringify(text);
  expect(secrets.length).toBeGreaterThan(5);
  expect(secrets.filter((secret) => written.includes(secret))).toEqual([]);
  for (const client of [owner, ...Object.values(seats)]) expect(written).not.toContain(client.cookie().split('=')[1]);
  expect((await fetchEvaluation(owner, id)).bytes.equals(bytes)).toBe(true);
});

it('SC3: pictures go along under the hash of the bytes that the server shows; a removed one leaves its row alone', async () => {
  await using server = await startTestServer();
  const day = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id, owner } = day;
  const [puppy = ''] = (await owner.api.evaluation.get.query({ id })).puppies.map((one) => one.id);
  const kept = await sendPhoto(owner, { evaluation: id, puppy, bytes: await plainPicture(30) });
  const gone = await sendPhoto(owner, { evaluation: id, puppy, bytes: await plainPicture(90), view: 'front' });
  await owner.api.photo.remove.mutate({ id, photoId: gone.id ?? '' });
  await owner.api.photo.point.mutate({
    id,
    pointerId: systemRandom.id(),
    photoId: kept.id ?? '',
    pointer: { kind: 'ring', from: { x: 0.2, y: 0.2 }, to: { x: 0.4, y: 0.4 }, note: 'here' },
  });
  await playToReveal(day);
  const parts = await unzipped((await fetchEvaluation(owner, id)).bytes);
  const { pictures, rows } = textOf(parts);
  expect([rows.photo.length, rows.photo_pointer.length, pictures.length, parts.size]).toEqual([2, 1, 1, 2]);
  const shown = Buffer.from(
    await (
      await fetch(`${owner.url}/api/photo/${kept.id}/large`, { headers: { cookie: owner.cookie() } })
    ).arrayBuffer(),
  );
  expect(pictures).toEqual([
    { photo: kept.id, name: `pictures/${sha256(shown)}.webp`, sha256: sha256(shown), bytes: shown.length },
  ]);
  expect(parts.get(pictures[0]?.name ?? '')?.equals(shown)).toBe(true);
});
