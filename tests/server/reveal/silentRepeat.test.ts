import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { readEverything } from '#tests/support/readEverything';
import { playToReveal, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

async function withRepeat({ id, owner }: Quillmarsh, medium: 'table' | 'photographs'): Promise<void> {
  const { name, heldOn, callLink, callNumber, tableNote, sheetId, purposes, slots, order } =
    await owner.api.setup.get.query({ id });
  const terms = slots.map(({ taker, seatId, purpose, sex, condition, byWhen, ifFails }) => ({
    taker,
    seatId,
    purpose,
    sex,
    condition,
    byWhen,
    ifFails,
  }));
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: terms,
    order,
    plan: { ...usualPlan, silentRepeat: true },
  });
}

it('ST1: a puppy shown twice is on the board as what each seat gave it again, enters no merit, and gives self-consistency an interval', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 4 });
  const { id, owner } = quillmarsh;
  await withRepeat(quillmarsh, 'table');
  await playToReveal(quillmarsh, steadyCell);
  const showings = (await owner.api.evaluation.get.query({ id })).round?.showings ?? [];
  const again = showings.filter(({ repeat }) => repeat);
  expect([showings.length, again.length]).toEqual([5, 1]);
  const board = await owner.api.board.get.query({ id });
  expect(board.repeats).toHaveLength(4);
  for (const { puppy, cells, alike, difference } of board.repeats)
    expect([puppy, cells > 3, alike, difference]).toEqual([again[0]?.puppyId, true, cells, 0]);
  for (const { profile } of board.evaluators) expect(profile.selfConsistency).toMatchObject({ value: 0 });
  expect(board.criteria[0]?.dots.filter((dot) => dot.puppy === again[0]?.puppyId)).toHaveLength(4);
});

it.each(['table', 'photographs'] as const)(
  'BL1: which showing is the second of its puppy is told to nobody before the reveal, by no flag, place or line of the record (%s)',
  async (medium) => {
    await using server = await startTestServer();
    const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 4, medium });
    const { id, owner, seats } = quillmarsh;
    await withRepeat(quillmarsh, medium);
    await owner.api.evaluation.openRound.mutate({ id });
    for (const client of [owner, ...Object.values(seats)]) {
      const { round } = await client.api.evaluation.get.query({ id });
      expect(round?.showings.map(({ repeat }) => repeat)).toEqual([false, false, false, false, false]);
      // From photographs a seat's own order is all there is: the table's, in which the second comes last, would tell.
      if (medium === 'photographs') expect(round?.showings.map(({ place }) => place)).toEqual([0, 1, 2, 3, 4]);
      const heard = (await readEverything(client, { id, seq: 3 })).join('\n');
      expect(heard).not.toMatch(/"repeat":true|5 showings/);
    }
    const opened = (await owner.api.record.list.query({ id })).at(-1);
    expect(opened?.kind).toBe('round-opened');
    expect(opened?.detail).toMatch(/^4 puppies \[/);
  },
);
