import { expect, it } from 'vitest';
import { saveSeat } from '#db/queries/seats';
import { setSeatLock } from '#db/queries/rounds';
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
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order, seats } =
    await owner.api.setup.get.query({ id });
  const learnerSeatId = seats.find((seat) => seat.owner)?.id ?? '';
  const save = (plan: typeof usualPlan) =>
    owner.api.setup.save.mutate({
      id,
      input: { name, heldOn, medium, callLink, callNumber, tableNote },
      sheetId,
      purposes,
      slots: [],
      order,
      plan,
    });
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
  expect([view.round?.occasion, view.round?.state, view.revealed, view.phase]).toEqual([
    'lesson',
    'revealed',
    true,
    'deciding',
  ]);
});

it('BL1: the lesson is for learner and mentor, closed until the mentor’s lock, and says what parts them', async () => {
  await using server = await startTestServer();
  const { id, owner, mentor, save, learnerSeatId } = await lesson(server);
  if (!mentor) throw new Error('no mentor');
  await save({ ...usualPlan, kind: 'lesson', learnerSeatId });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await scoreCard(owner, id, steadyCell);
  await scoreCard(mentor, id, (cell) =>
    cell.criterion === 'front-legs' ? 2 : steadyCell({ ...cell, seat: 'breeder' }),
  );
  for (const client of [owner, mentor]) {
    await expect(client.api.lesson.get.query({ id })).rejects.toMatchObject(code('wrong-phase'));
    await expect(client.api.lesson.progress.query({ id })).rejects.toMatchObject(code('wrong-phase'));
  }
  for (const client of [owner, mentor]) await lockCard(client, id);
  const view = await mentor.api.lesson.get.query({ id });
  expect(view).toEqual(await owner.api.lesson.get.query({ id }));
  expect(view.criteria.filter(({ beyond }) => beyond).map(({ criterion }) => criterion)).toEqual(['front-legs']);
  expect(view.sentences.join(' ')).toContain('Front legs');
  expect(await owner.api.lesson.progress.query({ id })).toMatchObject({
    litters: 1,
    mean: { undefined: 'too few data' },
  });
});

it('BL1: a panel has no lesson', async () => {
  await using server = await startTestServer();
  const { id, owner } = await lesson(server);
  await expect(owner.api.lesson.get.query({ id })).rejects.toMatchObject(code('not-found'));
});

const third = { label: 'photographer', kind: 'photographs', leads: false, picks: false, interest: '' } as const;

it('BL7: a third seat that scores is refused to a lesson in the set-up, by adding, by a change of kind, by invitation and at the opening', async () => {
  await using server = await startTestServer();
  const { id, owner, save, learnerSeatId } = await lesson(server);
  const { id: thirdId } = await owner.api.setup.saveSeat.mutate({ id, seatId: null, seat: third });
  await expect(save({ ...usualPlan, kind: 'lesson', learnerSeatId })).rejects.toMatchObject(code('lesson-seats'));
  await owner.api.setup.saveSeat.mutate({ id, seatId: thirdId, seat: { ...third, kind: 'none' } });
  await save({ ...usualPlan, kind: 'lesson', learnerSeatId });
  await expect(owner.api.setup.saveSeat.mutate({ id, seatId: thirdId, seat: third })).rejects.toMatchObject(
    code('lesson-seats'),
  );
  await expect(
    owner.api.setup.saveSeat.mutate({ id, seatId: null, seat: { ...third, label: 'another' } }),
  ).rejects.toMatchObject(code('lesson-seats'));
  // As a lesson from before this was held to stands in a data file.
  saveSeat(server.runtime.db, { id: thirdId, evaluationId: id, owner: false, input: third });
  await expect(owner.api.setup.invite.mutate({ id, seatId: thirdId })).rejects.toMatchObject(code('lesson-seats'));
  await expect(owner.api.setup.spokenCode.mutate({ id, seatId: thirdId })).rejects.toMatchObject(code('lesson-seats'));
  await expect(owner.api.evaluation.openRound.mutate({ id, unconfirmed: true })).rejects.toMatchObject(
    code('lesson-seats'),
  );
  // What is wrong can be put right.
  await owner.api.setup.saveSeat.mutate({ id, seatId: thirdId, seat: { ...third, label: 'the third' } });
  await owner.api.setup.saveSeat.mutate({ id, seatId: thirdId, seat: { ...third, kind: 'none' } });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await expect(
    owner.api.setup.saveSeat.mutate({ id, seatId: null, seat: { ...third, label: 'a late one' } }),
  ).rejects.toMatchObject(code('lesson-seats'));
});

it('BL7: a lesson that has a third seat from before ends with the mentor’s lock; one that waited for the third is closed by the owner, and shown', async () => {
  await using server = await startTestServer();
  const open = async () => {
    const made = await lesson(server);
    await made.save({ ...usualPlan, kind: 'lesson', learnerSeatId: made.learnerSeatId });
    await made.owner.api.evaluation.openRound.mutate({ id: made.id, unconfirmed: true });
    saveSeat(server.runtime.db, { id: made.id, evaluationId: made.id, owner: false, input: third });
    for (const client of [made.owner, made.mentor]) if (client) await scoreCard(client, made.id, steadyCell);
    await lockCard(made.owner, made.id);
    return made;
  };
  const first = await open();
  await expect(first.owner.api.evaluation.closeRound.mutate({ id: first.id })).rejects.toMatchObject(
    code('wrong-phase'),
  );
  await lockCard(first.mentor, first.id);
  expect((await first.owner.api.lesson.get.query({ id: first.id })).learner).toBe(first.learnerSeatId);
  const stuck = await open();
  const view = await stuck.mentor?.api.evaluation.get.query({ id: stuck.id });
  setSeatLock(server.runtime.db, { roundId: view?.round?.id ?? '', seatId: view?.viewer.seatId ?? '', lockedAt: 5 });
  await stuck.owner.api.evaluation.closeRound.mutate({ id: stuck.id });
  expect((await stuck.owner.api.lesson.get.query({ id: stuck.id })).mentor).toBe(view?.viewer.seatId);
});
