import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { pairsProposed } from '#lib/evaluation/decideLook';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { playToReveal, type CellOf } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const code = (expected: string) => ({ data: { code: expected } });

const alike: CellOf = ({ puppy, criterion, seat, twoSided }) => {
  const drawn = (createHash('sha256').update(`${puppy} ${criterion} ${seat}`).digest()[0] ?? 0) % 5;
  return drawn - 2 + (twoSided ? 0 : 4);
};

async function closeLitter(server: TestServer) {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 4 });
  await playToReveal(quillmarsh, alike);
  const { id, owner, seats } = quillmarsh;
  const view = await owner.api.evaluation.get.query({ id });
  const slotId = view.slots[0]?.id ?? '';
  const answer = (
    client: TestClient | undefined,
    lookId: string | undefined,
    choice: 'first' | 'second' | 'tie' = 'tie',
  ) =>
    client?.api.look.answer.mutate({
      id,
      answer: { id: systemRandom.id(), lookId: lookId ?? '', choice, criterion: null, madeAt: 1 },
    });
  return { ...quillmarsh, view, slotId, answer, table: [owner, seats['mentor'], seats['co-owner']] };
}

it('BL8: only whoever leads asks what to look at next, and only after a reveal', async () => {
  await using server = await startTestServer();
  const { id, seats, slotId } = await closeLitter(server);
  await expect(seats['mentor']?.api.look.propose.query({ id, slotId, medium: 'table' })).rejects.toMatchObject(
    code('not-allowed'),
  );
});

it('BL8: no more than three pairs, each once and of puppies that the place could take', async () => {
  await using server = await startTestServer();
  const { id, owner, slotId, view } = await closeLitter(server);
  const [a, b, c, d] = view.puppies.map((puppy) => puppy.id);
  const pair = (firstPuppyId = '', secondPuppyId = '') => ({ firstPuppyId, secondPuppyId });
  const before = dataOf(server.runtime.db);
  const open = (pairs: ReturnType<typeof pair>[]) => owner.api.look.open.mutate({ id, slotId, medium: 'table', pairs });
  for (const pairs of [[], [pair(a, b), pair(b, a)], [pair(a, a)], [pair(a, b), pair(a, c), pair(a, d), pair(b, c)]]) {
    await expect(open(pairs)).rejects.toMatchObject(code('bad-input'));
  }
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('BL8: a batch as proposed shows no answer before its last, opens no other beside it, and counts against what was agreed', async () => {
  await using server = await startTestServer();
  const { id, owner, seats, slotId, answer, table, view } = await closeLitter(server);
  const proposal = await owner.api.look.propose.query({ id, slotId, medium: 'table' });
  if ('undefined' in proposal) throw new Error(proposal.undefined);
  expect(proposal.pairs).toHaveLength(pairsProposed);
  expect(proposal.gain).toBeGreaterThanOrEqual(0);
  const own = view.puppies
    .map((puppy) => puppy.id)
    .filter((puppy) => puppy !== proposal.pairs[0]?.firstPuppyId && puppy !== proposal.pairs[0]?.secondPuppyId);
  const added = { firstPuppyId: own[0] ?? '', secondPuppyId: own[1] ?? '' };
  const pairs = [...proposal.pairs.map(({ firstPuppyId, secondPuppyId }) => ({ firstPuppyId, secondPuppyId })), added];
  for (let batch = 0; batch < 3; batch += 1) {
    const { lookIds } = await owner.api.look.open.mutate({ id, slotId, medium: 'table', pairs });
    await expect(owner.api.look.open.mutate({ id, slotId, medium: 'table', pairs })).rejects.toMatchObject(
      code('still-open'),
    );
    for (const client of table) for (const lookId of lookIds.slice(0, -1)) await answer(client, lookId, 'first');
    expect(
      (await seats['mentor']?.api.look.list.query({ id }))
        ?.filter((look) => look.state === 'open')
        .every((look) => look.answers === null),
    ).toBe(true);
    for (const client of table) await answer(client, lookIds.at(-1));
  }
  const board = await owner.api.board.get.query({ id });
  const place = board.slots.find((slot) => slot.slotId === slotId);
  expect(place?.looks).toMatchObject({ used: 3, agreed: 3 });
  expect(['settled', 'equalWithinHalf', 'notSettled']).toContain(place?.looks.verdict);
  await expect(owner.api.look.open.mutate({ id, slotId, medium: 'table', pairs })).rejects.toMatchObject(
    code('looks-spent'),
  );
});

it('BL8: from photographs every scoring seat answers, and half of them see the pair the other way round', async () => {
  await using server = await startTestServer();
  const { id, owner, seats, slotId, view } = await closeLitter(server);
  const [first, second] = view.puppies.map((puppy) => puppy.id);
  await owner.api.look.open.mutate({
    id,
    slotId,
    medium: 'photographs',
    pairs: [{ firstPuppyId: first ?? '', secondPuppyId: second ?? '' }],
  });
  const seen = await Promise.all([owner, ...Object.values(seats)].map((client) => client.api.look.list.query({ id })));
  expect(seen.map(([look]) => look?.mayAnswer)).toEqual([true, true, true, true]);
  expect(seen.filter(([look]) => look?.leftPuppyId === first)).toHaveLength(2);
});
