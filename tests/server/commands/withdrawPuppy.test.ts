import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const refused = (code: string) => ({ data: { code } });

/** Whether a puppy is out, as the evaluation, the set-up and a seat each say it. */
async function outOf(
  clients: readonly TestClient[],
  id: string,
  puppyId: string,
): Promise<readonly (boolean | undefined)[]> {
  const find = (puppies: readonly { readonly id: string; readonly withdrawn: boolean }[]) =>
    puppies.find((one) => one.id === puppyId)?.withdrawn;
  const views = await Promise.all(
    clients.map(async ({ api }) => find((await api.evaluation.get.query({ id })).puppies)),
  );
  const setUp = clients[0] ? find((await clients[0].api.setup.get.query({ id })).puppies) : undefined;
  return [...views, setUp];
}

it.each(['open', 'closed'] as const)(
  'SC3: a puppy withdrawn in an %s round comes back with its scores, which count; the record keeps both lines',
  async (stage) => {
    await using server = await startTestServer();
    const { id, owner, seats } = await bringTo(server, stage);
    const [first] = (await owner.api.evaluation.get.query({ id })).puppies;
    if (!first || !seats['mentor']) throw new Error('nobody there');
    const clients = [owner, seats['mentor']];
    const answers = () => seats['mentor']?.api.card.mine.query({ id });
    const before = await answers();
    await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: first.id, reason: 'limping' });
    expect(await outOf(clients, id, first.id)).toEqual([true, true, true]);
    await owner.api.evaluation.bringBackPuppy.mutate({ id, puppyId: first.id });
    expect(await outOf(clients, id, first.id)).toEqual([false, false, false]);
    expect(await answers()).toEqual(before);
    const lines = (await owner.api.record.list.query({ id })).filter(({ kind }) => kind.startsWith('puppy-'));
    expect(
      lines.map(({ kind, detail }) => [kind, detail.replace(/ \[withdrawal [0-9a-f]{64}\]$/, '')]).toSorted(),
    ).toEqual([
      ['puppy-brought-back', first.name],
      ['puppy-withdrawn', `${first.name}: limping`],
    ]);
    if (stage === 'open') return;
    await owner.api.evaluation.revealRound.mutate({ id });
    const board = await owner.api.board.get.query({ id });
    expect(board.purposes[0]?.merit.some((merit) => merit.puppy === first.id)).toBe(true);
  },
);

it('SC2: withdrawn or brought back a second time, nothing changes and no line is added', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'open');
  const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const untouched = dataOf(server.runtime.db);
  await owner.api.evaluation.bringBackPuppy.mutate({ id, puppyId });
  expect(dataOf(server.runtime.db)).toBe(untouched);
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId, reason: 'asleep' });
  const out = dataOf(server.runtime.db);
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId, reason: 'another reason' });
  expect(dataOf(server.runtime.db)).toBe(out);
});

it('BL7: after the reveal a withdrawn puppy stays out, and refusals change nothing', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'closed');
  const puppyId = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId, reason: 'limping' });
  await expect(seats['mentor']?.api.evaluation.bringBackPuppy.mutate({ id, puppyId })).rejects.toMatchObject(
    refused('not-allowed'),
  );
  await expect(owner.api.evaluation.bringBackPuppy.mutate({ id, puppyId: systemRandom.id() })).rejects.toMatchObject(
    refused('not-found'),
  );
  await owner.api.evaluation.revealRound.mutate({ id });
  const before = dataOf(server.runtime.db);
  await expect(owner.api.evaluation.bringBackPuppy.mutate({ id, puppyId })).rejects.toMatchObject(
    refused('wrong-phase'),
  );
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('SC3: a puppy withdrawn before the round comes back before it is opened, and not afterwards: it has no place in the order', async () => {
  await using server = await startTestServer();
  const { id, owner } = await seedQuillmarsh(await server.owner());
  const [first, second] = (await owner.api.evaluation.get.query({ id })).puppies;
  if (!first || !second) throw new Error('no puppies');
  for (const puppy of [first, second])
    await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: puppy.id, reason: 'not well' });
  await owner.api.evaluation.bringBackPuppy.mutate({ id, puppyId: first.id });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const shown = (await owner.api.evaluation.get.query({ id })).round?.showings.map((showing) => showing.puppyId);
  expect(shown).toContain(first.id);
  expect(shown).not.toContain(second.id);
  await expect(owner.api.evaluation.bringBackPuppy.mutate({ id, puppyId: second.id })).rejects.toMatchObject(
    refused('wrong-phase'),
  );
});
