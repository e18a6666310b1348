import { expect, it } from 'vitest';
import { cardsHash } from '#server/write/commitCards';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard, promiseOf } from '#tests/support/lockCard';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

const seatIdOf = async ({ id, seats }: Quillmarsh, label: string) =>
  (await seats[label]?.api.evaluation.get.query({ id }))?.viewer.seatId ?? '';

it.each([
  ['over other answers', { commitment: 'a'.repeat(64) }],
  ['with another nonce than it was made with', { nonce: 'b'.repeat(32) }],
])('SC5: a lock promised %s is refused, and nothing changes', async (_, change) => {
  await using server = await startTestServer();
  const { id, seats } = await bringTo(server, 'open');
  const mentor = seats['mentor'];
  if (!mentor) throw new Error('no mentor');
  const promised = await promiseOf(mentor, id);
  const before = dataOf(server.runtime.db);
  await expect(mentor.api.card.lock.mutate({ id, ...promised, ...change })).rejects.toMatchObject(code('out-of-step'));
  expect(dataOf(server.runtime.db)).toBe(before);
  await mentor.api.card.lock.mutate({ id, ...promised });
});

it('BL7: commitments are published when the round closes and not before, one a seat, and say which card was not locked', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'open');
  await lockCard(seats['mentor'], id);
  await lockCard(owner, id);
  expect((await owner.api.evaluation.get.query({ id })).commitments).toBeNull();
  await owner.api.evaluation.closeRound.mutate({ id });
  const view = await owner.api.evaluation.get.query({ id });
  const locked = new Map(view.seats.map((seat) => [seat.id, seat.state === 'locked']));
  expect(view.commitments?.length).toBe(4);
  for (const one of view.commitments ?? [])
    expect([one.locked, one.by]).toEqual(locked.get(one.seat) ? [true, 'device'] : [false, 'server']);
  const lines = (await owner.api.record.list.query({ id })).filter((line) => /^committed/.test(line.kind));
  expect(lines.map((line) => line.detail).toSorted()).toEqual(view.commitments?.map((one) => one.hash).toSorted());
  expect(lines.filter((line) => line.kind === 'committed-unlocked').map((line) => line.actor)).toEqual([
    'photographer',
    'co-owner',
  ]);
});

it('BL1: no nonce leaves before the reveal, the seat’s own included', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'closed');
  const nonces = server.runtime.db.$client.prepare<[], { nonce: string }>('SELECT nonce FROM commitment').all();
  expect(nonces.length).toBe(4);
  for (const client of [owner, ...Object.values(seats)]) {
    await expect(client.api.board.commitments.query({ id })).rejects.toMatchObject(code('wrong-phase'));
    await client.api.evaluation.get.query({ id });
    await client.api.record.list.query({ id });
    await client.api.card.mine.query({ id });
    const heard = client.received.join('\n');
    for (const { nonce } of nonces) expect(heard).not.toContain(nonce);
  }
});

it('BL7: after the reveal every seat can make every commitment again, and it is the one published before', async () => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, 'closed');
  const { id, owner, seats } = quillmarsh;
  const published = (await owner.api.evaluation.get.query({ id })).commitments;
  await owner.api.evaluation.revealRound.mutate({ id });
  const opened = await seats['photographer']?.api.board.commitments.query({ id });
  const roundId = (await owner.api.evaluation.get.query({ id })).round?.id ?? '';
  expect(opened?.length).toBe(4);
  for (const { seat, nonce, cards, hash } of opened ?? []) {
    expect(cards.length).toBeGreaterThan(10);
    expect(cardsHash(nonce, { roundId, seatId: seat, answers: cards })).toBe(hash);
    expect(published?.find((one) => one.seat === seat)?.hash).toBe(hash);
  }
});

it('BL7: a reopened round voids its commitments, on the record; the new ones are published when it closes again', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'closed');
  const first = (await owner.api.evaluation.get.query({ id })).commitments?.map((one) => one.hash) ?? [];
  await owner.api.evaluation.reopenRound.mutate({ id });
  expect((await owner.api.evaluation.get.query({ id })).commitments).toBeNull();
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id, systemRandom.id());
  const second = (await owner.api.evaluation.get.query({ id })).commitments?.map((one) => one.hash) ?? [];
  expect(second.filter((hash) => first.includes(hash))).toEqual([]);
  const count = server.runtime.db.$client
    .prepare('SELECT count(*) AS all_made, count(voided_at) AS void FROM commitment')
    .get();
  expect(count).toEqual({ all_made: 8, void: 4 });
  expect((await owner.api.record.list.query({ id })).map((line) => line.kind)).toContain('round-reopened');
});

it('SC3: a commitment is neither changed nor deleted, and voided only once', async () => {
  await using server = await startTestServer();
  await bringTo(server, 'closed');
  const client = server.runtime.db.$client;
  expect(() => client.prepare('DELETE FROM commitment').run()).toThrow(/append-only/);
  expect(() => client.prepare("UPDATE commitment SET nonce = 'x', voided_at = 1").run()).toThrow(
    /changes in nothing else/,
  );
  expect(() => client.prepare('UPDATE commitment SET made_at = 1').run()).toThrow(/changes in nothing else/);
  client.prepare('UPDATE commitment SET voided_at = 1').run();
  expect(() => client.prepare('UPDATE commitment SET voided_at = NULL').run()).toThrow(/changes in nothing else/);
});

it('BL9: the new device of a reissued seat promises its own part, and the server commits to the whole', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner());
  const { id, owner, seats } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  if (!seats['mentor']) throw new Error('no mentor');
  await scoreCard(seats['mentor'], id, steadyCell);
  const mentor = await seatIdOf(quillmarsh, 'mentor');
  const { token } = await owner.api.setup.reissue.mutate({ id, seatId: mentor });
  const fresh = server.stranger();
  await fresh.api.session.join.mutate({ token });
  expect((await fresh.api.card.mine.query({ id })).answers).toEqual([]);
  await lockCard(fresh, id);
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  const roundId = (await owner.api.evaluation.get.query({ id })).round?.id ?? '';
  const opened = (await owner.api.board.commitments.query({ id })).find((one) => one.seat === mentor);
  expect(opened).toMatchObject({ by: 'server', locked: true });
  expect(opened?.cards.length).toBeGreaterThan(10);
  expect(cardsHash(opened?.nonce ?? '', { roundId, seatId: mentor, answers: opened?.cards ?? [] })).toBe(opened?.hash);
});
