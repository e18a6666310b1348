import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { playToReveal, type CellOf } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const code = (expected: string) => ({ data: { code: expected } });

/** Three puppies whose scores differ by chance alone: from a hash of who scored what. */
const alike: CellOf = ({ puppy, criterion, seat, twoSided }) => {
  const drawn = (createHash('sha256').update(`${puppy} ${criterion} ${seat}`).digest()[0] ?? 0) % 5;
  return drawn - 2 + (twoSided ? 0 : 4);
};

async function openOne() {
  const server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  await playToReveal(quillmarsh, alike);
  const { id, owner } = quillmarsh;
  const view = await owner.api.evaluation.get.query({ id });
  const [first, second] = view.puppies;
  const [slot] = view.slots;
  if (!first || !second || !slot) throw new Error('nothing to look at');
  const two = { firstPuppyId: first.id, secondPuppyId: second.id };
  const pair = { id, slotId: slot.id, medium: 'table' as const, pairs: [two] };
  const look = await owner.api.look.open.mutate(pair);
  const answer = (client: TestClient | undefined, choice: 'first' | 'second' | 'tie', lookId = look.lookIds[0] ?? '') =>
    client?.api.look.answer.mutate({ id, answer: { id: systemRandom.id(), lookId, choice, criterion: view.sheet.criteria[0]?.key ?? null, madeAt: 1 } });
  return { [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](), server, ...quillmarsh, pair, look, answer, first, second };
}

it('BL8: nothing about others’ answers shows before the look closes: the list is the same to the byte', async () => {
  await using table = await openOne();
  const { id, seats, answer, owner } = table;
  const read = async () => JSON.stringify(await seats['mentor']?.api.look.list.query({ id }));
  const before = await read();
  const version = (await seats['mentor']?.api.evaluation.get.query({ id }))?.versions;
  await answer(owner, 'first');
  await answer(seats['co-owner'], 'second');
  expect(await read()).toBe(before);
  expect((await seats['mentor']?.api.evaluation.get.query({ id }))?.versions).toEqual(version);
});

it('BL8: a seat that sees photographs only does not answer a live look, and no board moves before it closes', async () => {
  await using table = await openOne();
  const { id, seats, answer, owner } = table;
  await expect(answer(seats['photographer'], 'first')).rejects.toMatchObject(code('not-allowed'));
  const before = await owner.api.board.get.query({ id });
  await answer(owner, 'first');
  expect(await owner.api.board.get.query({ id })).toEqual(before);
});

it('BL8: the last awaited answer closes the look; answers then show, and the result moves with them', async () => {
  const aheadAfter = async (choice: 'first' | 'second') => {
    await using table = await openOne();
    const { id, seats, answer, owner, first, second } = table;
    for (const client of [owner, seats['mentor'], seats['co-owner']]) await answer(client, choice);
    const [look] = await owner.api.look.list.query({ id });
    expect(look?.state).toBe('revealed');
    expect(look?.answers?.map((one) => one.choice)).toEqual([choice, choice, choice]);
    const board = await owner.api.board.get.query({ id });
    expect(board.looks.answers).toBe(3);
    return board.purposes[0]?.better[second.id]?.[first.id] ?? Number.NaN;
  };
  expect(await aheadAfter('second')).toBeGreaterThan((await aheadAfter('first')) + 0.1);
});

it('BL8: a repeat of the same pair swaps places', async () => {
  await using table = await openOne();
  const { id, seats, answer, owner, pair } = table;
  await expect(owner.api.look.open.mutate(pair)).rejects.toMatchObject(code('still-open'));
  for (const client of [owner, seats['mentor'], seats['co-owner']]) await answer(client, 'tie');
  await owner.api.look.open.mutate({ ...pair, pairs: pair.pairs.map((one) => ({ firstPuppyId: one.secondPuppyId, secondPuppyId: one.firstPuppyId })) });
  const [one, two] = await owner.api.look.list.query({ id });
  expect([two?.repeat, two?.firstPuppyId, two?.leftPuppyId]).toEqual([true, one?.firstPuppyId, one?.secondPuppyId]);
});

it('BL8: the owner closes only after her own answer, and a closed look takes no more', async () => {
  await using table = await openOne();
  const { id, seats, answer, owner, look } = table;
  await expect(owner.api.look.close.mutate({ id, batchId: look.id })).rejects.toMatchObject(code('own-card-open'));
  await answer(owner, 'first');
  await owner.api.look.close.mutate({ id, batchId: look.id });
  await expect(answer(seats['mentor'], 'second')).rejects.toMatchObject(code('wrong-phase'));
});

it('BL8: a mind changed before the close counts as changed', async () => {
  await using table = await openOne();
  const { id, answer, owner, look } = table;
  await answer(owner, 'first');
  await answer(owner, 'second');
  await owner.api.look.close.mutate({ id, batchId: look.id });
  const [closed] = await owner.api.look.list.query({ id });
  expect(closed?.answers?.map((one) => one.choice)).toEqual(['second']);
});
