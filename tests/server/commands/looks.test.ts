import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import type { SeatInput } from '#lib/contract/setup';
import { systemRandom } from '#server/random';
import { playToReveal, type CellOf } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const code = (expected: string) => ({ data: { code: expected } });

/** Three puppies whose scores differ by chance alone: from a hash of who scored what. */
const alike: CellOf = ({ puppy, criterion, seat, twoSided }) => {
  const drawn = (createHash('sha256').update(`${puppy} ${criterion} ${seat}`).digest()[0] ?? 0) % 5;
  return drawn - 2 + (twoSided ? 0 : 4);
};

async function seated(server: TestServer, { id, owner }: Quillmarsh, seat: SeatInput): Promise<TestClient> {
  const { id: seatId } = await owner.api.setup.saveSeat.mutate({ id, seatId: null, seat });
  const client = server.stranger();
  await client.api.session.join.mutate({ token: (await owner.api.setup.invite.mutate({ id, seatId })).token });
  return client;
}

async function openOne(leading?: SeatInput) {
  const server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const leader = leading && (await seated(server, quillmarsh, leading));
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
    client?.api.look.answer.mutate({
      id,
      answer: { id: systemRandom.id(), lookId, choice, criterion: view.sheet.criteria[0]?.key ?? null, madeAt: 1 },
    });
  return {
    [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](),
    server,
    ...quillmarsh,
    leader,
    pair,
    look,
    answer,
    first,
    second,
  };
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
  await owner.api.look.open.mutate({
    ...pair,
    pairs: pair.pairs.map((one) => ({ firstPuppyId: one.secondPuppyId, secondPuppyId: one.firstPuppyId })),
  });
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

it('BL8: a table person without a card closes no batch over seats that are awaited; once they have gone it may, and the record says who did not answer', async () => {
  await using table = await openOne({ label: 'table person', kind: 'none', leads: true, picks: false, interest: '' });
  const { id, seats, answer, owner, look, server, leader } = table;
  if (!leader) throw new Error('nobody leads');
  const { seats: faces } = await owner.api.evaluation.get.query({ id });
  const idOf = (label: string) => faces.find((one) => one.label === label)?.id ?? '';
  const close = () => leader.api.look.close.mutate({ id, batchId: look.id });
  await expect(close()).rejects.toMatchObject(code('look-awaited'));
  await answer(seats['mentor'], 'first');
  await expect(close()).rejects.toMatchObject(code('look-awaited'));
  expect(JSON.stringify(await leader.api.look.list.query({ id }).catch(() => null))).not.toContain('"choice"');
  await owner.api.setup.endSeat.mutate({ id, seatId: idOf('co-owner') });
  await expect(close()).rejects.toMatchObject(code('look-awaited'));
  await answer(owner, 'tie');
  expect((await owner.api.look.list.query({ id }))[0]?.state).toBe('revealed');
  // Closed by one who has answered, over one who has not: on the record.
  const again = await owner.api.look.open.mutate(table.pair);
  await answer(owner, 'tie', again.lookIds[0]);
  await owner.api.look.close.mutate({ id, batchId: again.id });
  const closed = (await owner.api.record.list.query({ id })).at(-1);
  expect(closed?.kind).toBe('look-closed');
  expect(closed?.detail).toMatch(/^not answered: mentor \[answers [0-9a-f]{64}\]$/);
  // The last awaited goes before it answers: then nobody is awaited, and nobody's answer is behind it.
  const last = await owner.api.look.open.mutate(table.pair);
  await answer(owner, 'tie', last.lookIds[0]);
  await owner.api.setup.endSeat.mutate({ id, seatId: idOf('mentor') });
  await leader.api.look.close.mutate({ id, batchId: last.id });
  expect(server.logged).toEqual([]);
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
