import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { lockCard } from '#tests/support/lockCard';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

/** The breeder learns; the co-owner is the mentor; nobody else scores. */
async function lesson(server: TestServer) {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3, panel: ['co-owner'] });
  const { id, owner } = quillmarsh;
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order, seats } = await owner.api.setup.get.query({ id });
  const learnerSeatId = seats.find((seat) => seat.owner)?.id ?? '';
  const save = (plan: typeof usualPlan) =>
    owner.api.setup.save.mutate({ id, input: { name, heldOn, medium, callLink, callNumber, tableNote }, sheetId, purposes, slots: [], order, plan });
  return { ...quillmarsh, learnerSeatId, save, mentor: quillmarsh.seats['co-owner'] };
}

it('BL7: a lesson names a learner who scores; a panel names nobody', async () => {
  await using server = await startTestServer();
  const { save, learnerSeatId } = await lesson(server);
  await expect(save({ ...usualPlan, kind: 'lesson' })).rejects.toMatchObject(code('bad-input'));
  await expect(save({ ...usualPlan, learnerSeatId })).rejects.toMatchObject(code('bad-input'));
});

it('BL1, BL7: the learner locks first; the mentor’s lock reveals to both, and nothing else does', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor, save, learnerSeatId } = await lesson(server);
  if (!mentor) throw new Error('no mentor');
  await save({ ...usualPlan, kind: 'lesson', learnerSeatId });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  for (const client of [owner, mentor]) await scoreCard(client, id, steadyCell);
  await expect(lockCard(mentor, id)).rejects.toMatchObject(code('learner-first'));
  await lockCard(owner, id);
  await expect(owner.api.evaluation.closeRound.mutate({ id })).rejects.toMatchObject(code('wrong-phase'));
  await expect(owner.api.evaluation.revealRound.mutate({ id })).rejects.toMatchObject(code('still-open'));
  await expect(owner.api.board.get.query({ id })).rejects.toMatchObject(code('wrong-phase'));
  await lockCard(mentor, id);
  const view = await owner.api.evaluation.get.query({ id });
  expect([view.round?.occasion, view.round?.state, view.revealed, view.phase]).toEqual(['lesson', 'revealed', true, 'deciding']);
});

it('BL1: the lesson is for learner and mentor, closed until the mentor’s lock, and says what parts them', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor, save, learnerSeatId } = await lesson(server);
  if (!mentor) throw new Error('no mentor');
  await save({ ...usualPlan, kind: 'lesson', learnerSeatId });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await scoreCard(owner, id, steadyCell);
  await scoreCard(mentor, id, (cell) => (cell.criterion === 'front-legs' ? 2 : steadyCell({ ...cell, seat: 'breeder' })));
  for (const client of [owner, mentor]) {
    await expect(client.api.lesson.get.query({ id })).rejects.toMatchObject(code('wrong-phase'));
    await expect(client.api.lesson.progress.query({ id })).rejects.toMatchObject(code('wrong-phase'));
  }
  for (const client of [owner, mentor]) await lockCard(client, id);
  const view = await mentor.api.lesson.get.query({ id });
  expect(view).toEqual(await owner.api.lesson.get.query({ id }));
  expect(view.criteria.filter(({ beyond }) => beyond).map(({ criterion }) => criterion)).toEqual(['front-legs']);
  expect(view.sentences.join(' ')).toContain('Front legs');
  expect(await owner.api.lesson.progress.query({ id })).toMatchObject({ litters: 1, mean: { undefined: 'too few data' } });
});

it('BL1: a panel has no lesson', async () => {
  await using server = await startTestServer();
  const { id, owner } = await lesson(server);
  await expect(owner.api.lesson.get.query({ id })).rejects.toMatchObject(code('not-found'));
});
