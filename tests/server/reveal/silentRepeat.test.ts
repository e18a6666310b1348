import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { playToReveal, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

it('ST1: a puppy shown twice is on the board as what each seat gave it again, enters no merit, and gives self-consistency an interval', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 4 });
  const { id, owner } = quillmarsh;
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, slots, order } = await owner.api.setup.get.query({ id });
  const terms = slots.map(({ taker, seatId, purpose, sex, condition, byWhen, ifFails }) => ({ taker, seatId, purpose, sex, condition, byWhen, ifFails }));
  await owner.api.setup.save.mutate({ id, input: { name, heldOn, medium, callLink, callNumber, tableNote }, sheetId, purposes, slots: terms, order, plan: { ...usualPlan, silentRepeat: true } });
  await playToReveal(quillmarsh, steadyCell);
  const showings = (await owner.api.evaluation.get.query({ id })).round?.showings ?? [];
  const again = showings.filter(({ repeat }) => repeat);
  expect([showings.length, again.length]).toEqual([5, 1]);
  const board = await owner.api.board.get.query({ id });
  expect(board.repeats).toHaveLength(4);
  for (const { puppy, cells, alike, difference } of board.repeats) expect([puppy, cells > 3, alike, difference]).toEqual([again[0]?.puppyId, true, cells, 0]);
  for (const { profile } of board.evaluators) expect(profile.selfConsistency).toMatchObject({ value: 0 });
  expect(board.criteria[0]?.dots.filter((dot) => dot.puppy === again[0]?.puppyId)).toHaveLength(4);
});
