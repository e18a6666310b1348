import { expect, it } from 'vitest';
import type { EntryBody } from '#lib/contract/entry';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

async function setTable() {
  const server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner());
  const { id, owner, seats } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  const view = await owner.api.evaluation.get.query({ id });
  const { mentor } = seats;
  const criterion = view.sheet.criteria.find((one) => !one.twoSided && !one.handsOnly)?.key ?? '';
  const [fern, moss, sorrel] = view.round?.showings ?? [];
  if (!mentor || !fern || !moss || !sorrel) throw new Error('the table is not set');
  const put = (client: TestClient, subject: string, body: EntryBody, counter = 1) =>
    client.api.card.submit.mutate({ id, entries: [{ id: systemRandom.id(), subject, counter, madeAt: 1, body }] });
  const score = (value: number): EntryBody => ({ kind: 'score', criterion, value, cannotJudge: false });
  await put(mentor, fern.id, score(2));
  await put(mentor, fern.id, { kind: 'note', criterion: null, text: 'said of Fern' });
  await put(mentor, moss.id, score(6));
  await put(owner, fern.id, score(4));
  const move = (client: TestClient, change: { from?: string; to?: string; moveId?: string } = {}) =>
    client.api.card.move.mutate({ id, from: fern.id, to: moss.id, moveId: systemRandom.id(), ...change });
  /** What stands about one puppy, as its own seat reads it. */
  const read = async (client: TestClient, subject: string) => {
    const { answers } = await client.api.card.mine.query({ id });
    return answers
      .filter((answer) => answer.subject === subject)
      .map(({ body }) => ('value' in body ? body.value : 'text' in body ? body.text : body));
  };
  const entries = () => server.runtime.db.$client.prepare('SELECT count(*) AS n FROM entry').get();
  return {
    [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](),
    server,
    id,
    owner,
    mentor,
    fern,
    moss,
    sorrel,
    move,
    put,
    read,
    score,
    entries,
  };
}

it('SC3: refused, and nothing changed, when it makes no sense or the card is locked or the round closed', async () => {
  await using table = await setTable();
  const { server, id, owner, mentor, fern, sorrel, move } = table;
  const before = dataOf(server.runtime.db);
  await expect(move(mentor, { to: fern.id })).rejects.toMatchObject({ data: { code: 'bad-input' } });
  await expect(move(mentor, { to: systemRandom.id() })).rejects.toMatchObject({ data: { code: 'not-found' } });
  // The owner has said nothing of these two.
  await expect(move(owner, { from: table.moss.id, to: sorrel.id })).rejects.toMatchObject({
    data: { code: 'bad-input' },
  });
  expect(dataOf(server.runtime.db)).toBe(before);
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: sorrel.puppyId, reason: 'not well' });
  await expect(move(mentor, { to: sorrel.id })).rejects.toMatchObject({ data: { code: 'not-eligible' } });
  await lockCard(mentor, id);
  await expect(move(mentor)).rejects.toMatchObject({ data: { code: 'wrong-phase' } });
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await expect(move(owner)).rejects.toMatchObject({ data: { code: 'wrong-phase' } });
});

it('SC3, BL1: two cards of the own seat change places, every edit stays, and the record names the puppies and no score', async () => {
  await using table = await setTable();
  const { id, owner, mentor, fern, moss, move, read, entries } = table;
  await move(mentor);
  expect(await read(mentor, fern.id)).toEqual(['', 6]);
  expect(await read(mentor, moss.id)).toEqual(['said of Fern', 2]);
  expect(await read(owner, fern.id)).toEqual([4]);
  expect(entries()).toEqual({ n: 8 });
  const line = (await owner.api.record.list.query({ id })).find((one) => one.kind === 'card-moved');
  expect(line).toMatchObject({ actor: 'mentor', detail: 'Fern and Moss' });
});

it('SC2: the same move asked again changes nothing, after the lock too', async () => {
  await using table = await setTable();
  const { server, id, mentor, move } = table;
  const moveId = systemRandom.id();
  await move(mentor, { moveId });
  const after = dataOf(server.runtime.db);
  await move(mentor, { moveId });
  expect(dataOf(server.runtime.db)).toBe(after);
  await lockCard(mentor, id);
  const locked = dataOf(server.runtime.db);
  await move(mentor, { moveId });
  expect(dataOf(server.runtime.db)).toBe(locked);
});

it('LV1: an edit made after the move is newer than the move', async () => {
  await using table = await setTable();
  const { id, mentor, fern, move, put, read, score } = table;
  await move(mentor);
  const counter =
    (await mentor.api.card.mine.query({ id })).answers.find(
      (one) => one.subject === fern.id && one.field.startsWith('score:'),
    )?.counter ?? 0;
  await put(mentor, fern.id, score(3), counter + 1);
  expect(await read(mentor, fern.id)).toEqual(['', 3]);
});

it('BL9: the new device of a reissued seat may move the cards, and reads none of what was said before', async () => {
  await using table = await setTable();
  const { server, id, owner, fern, moss, move, put, read } = table;
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const { token } = await owner.api.setup.reissue.mutate({ id, seatId });
  const fresh = server.stranger();
  await fresh.api.session.join.mutate({ token });
  await put(fresh, moss.id, { kind: 'note', criterion: null, text: 'said of Moss' });
  await move(fresh);
  expect(await read(fresh, fern.id)).toEqual(['said of Moss']);
  expect(await read(fresh, moss.id)).toEqual([]);
  const inForce = server.runtime.db.$client
    .prepare("SELECT subject, value FROM answer WHERE seat_id = ? AND field LIKE 'score:%' ORDER BY value")
    .all(seatId);
  expect(inForce).toEqual([
    { subject: moss.id, value: 2 },
    { subject: fern.id, value: 6 },
  ]);
});
