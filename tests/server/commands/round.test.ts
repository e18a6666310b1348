import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { lockCard } from '#tests/support/lockCard';
import { bringTo } from '#tests/support/stages';
import { dataOf } from '#tests/support/dataOf';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

it('BL7: the owner can neither close nor reveal while her own card is open', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner());
  await owner.api.evaluation.openRound.mutate({ id });
  for (const seat of Object.values(seats)) await lockCard(seat, id);
  await expect(owner.api.evaluation.closeRound.mutate({ id })).rejects.toMatchObject(code('own-card-open'));
  await expect(owner.api.evaluation.revealRound.mutate({ id })).rejects.toMatchObject(code('still-open'));
  await lockCard(owner, id);
  expect((await owner.api.evaluation.get.query({ id })).round?.state).toBe('closed');
});

it('BL7: a closed round can be reopened before reveal, which voids every lock and is on the record', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'closed');
  await owner.api.evaluation.reopenRound.mutate({ id });
  const view = await owner.api.evaluation.get.query({ id });
  expect(view.round?.state).toBe('open');
  expect(view.seats.every((seat) => seat.state === 'joined')).toBe(true);
  const kinds = (await owner.api.record.list.query({ id })).map((entry) => entry.kind);
  expect(kinds).toContain('round-reopened');
  await lockCard(seats['mentor'], id);
  await expect(lockCard(seats['mentor'], id)).rejects.toMatchObject(code('wrong-phase'));
});

it('BL7: a revealed round stays revealed, by every way there is', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'revealed');
  const before = dataOf(server.runtime.db);
  await expect(owner.api.evaluation.reopenRound.mutate({ id })).rejects.toMatchObject(code('wrong-phase'));
  await expect(owner.api.evaluation.revealRound.mutate({ id })).rejects.toMatchObject(code('wrong-phase'));
  const client = server.runtime.db.$client;
  expect(() => client.prepare("UPDATE round SET state = 'open', revealed_at = NULL").run()).toThrow(/stays revealed/);
  expect(() => client.prepare('DELETE FROM snapshot').run()).toThrow(/append-only/);
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('BL7: seats that had not locked stand as they are, and the result says so', async () => {
  await using server = await startTestServer();
  const { id, owner } = await seedQuillmarsh(await server.owner());
  await owner.api.evaluation.openRound.mutate({ id });
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  const board = await owner.api.board.get.query({ id });
  expect(board.notLocked.length).toBe(3);
  expect(board.blindTo.join(' ')).toContain('Not locked when the round closed: mentor, photographer, co-owner');
});

it('BL5: every result says what it was blind to, and that the server’s files hide nothing from who can read them', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'revealed');
  const { blindTo } = await owner.api.board.get.query({ id });
  expect(blindTo[0]).toContain('no seat');
  expect(blindTo.at(-1)).toContain('whoever can read the server’s files');
});

it('BL1: the set-up is fixed once scoring is open', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'open');
  const { purposes, sheetId, order } = await owner.api.setup.get.query({ id });
  const input = {
    name: 'Changed',
    heldOn: '2026-09-12',
    medium: 'table',
    callLink: '',
    callNumber: '',
    tableNote: '',
  } as const;
  await expect(
    owner.api.setup.save.mutate({ id, input, sheetId, purposes, slots: [], order, plan: usualPlan }),
  ).rejects.toMatchObject(code('wrong-phase'));
});

it('SC3: a withdrawn puppy is out of the result and its scores stay in the history', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'closed');
  const [first] = (await owner.api.evaluation.get.query({ id })).puppies;
  if (!first) throw new Error('no puppy');
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: first.id, reason: 'limping' });
  await owner.api.evaluation.revealRound.mutate({ id });
  const board = await owner.api.board.get.query({ id });
  expect(board.purposes[0]?.merit.some((merit) => merit.puppy === first.id)).toBe(false);
  expect(server.runtime.db.$client.prepare('SELECT count(*) AS n FROM entry').get()).not.toEqual({ n: 0 });
});

it('BL4: in a photograph round each seat has its own balanced order, the owner cannot steer it', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { medium: 'photographs' });
  await owner.api.evaluation.openRound.mutate({ id });
  const orders = await Promise.all(
    [owner, ...Object.values(seats)].map(async (client) =>
      (await client.api.evaluation.get.query({ id })).round?.showings.map((showing) => showing.puppyId).join(),
    ),
  );
  expect(new Set(orders).size).toBe(4);
  const view = await owner.api.evaluation.get.query({ id });
  expect(view.round?.tableShowingId).toBeNull();
  await expect(
    owner.api.evaluation.moveTable.mutate({ id, showingId: view.round?.showings[0]?.id ?? '' }),
  ).rejects.toMatchObject(code('wrong-phase'));
});
