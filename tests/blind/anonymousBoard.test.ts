import { expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { playToReveal, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

it('BL9: an anonymous panel’s board, notes, looks and opened commitments name no seat but the viewer’s own, and say that few can be guessed', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, owner, seats } = quillmarsh;
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order } =
    await owner.api.setup.get.query({ id });
  const input = { name, heldOn, medium, callLink, callNumber, tableNote };
  await owner.api.setup.save.mutate({
    id,
    input,
    sheetId,
    purposes,
    slots: [{ taker: 'breeder', seatId: null, purpose: 'keep', sex: 'any', condition: '', byWhen: '', ifFails: '' }],
    order,
    plan: { ...usualPlan, discussion: 'anonymous' },
  });
  await seats['co-owner']?.api.setup.confirmPickOrder.mutate({ id });
  await playToReveal(quillmarsh, steadyCell);
  const view = await owner.api.evaluation.get.query({ id });
  const mentor = seats['mentor'];
  const own = (await mentor?.api.evaluation.get.query({ id }))?.viewer.seatId ?? '';
  const [first, second] = view.puppies;
  await mentor?.api.board.addNote.mutate({
    id,
    noteId: 'a'.repeat(32),
    slotId: null,
    puppyId: first?.id ?? '',
    otherPuppyId: second?.id ?? '',
    criterion: null,
    text: 'both move well',
  });
  const { lookIds } = await owner.api.look.open.mutate({
    id,
    slotId: view.slots[0]?.id ?? '',
    medium: 'photographs',
    pairs: [{ firstPuppyId: first?.id ?? '', secondPuppyId: second?.id ?? '' }],
  });
  for (const [at, client] of [owner, ...Object.values(seats)].entries()) {
    await client.api.look.answer.mutate({
      id,
      answer: {
        id: `${at}`.repeat(32),
        lookId: lookIds[0] ?? '',
        choice: at === 1 ? 'second' : 'first',
        criterion: null,
        madeAt: 1,
      },
    });
  }
  const read = async (api: typeof owner.api) =>
    JSON.stringify([
      await api.board.get.query({ id }),
      await api.board.notes.query({ id }),
      await api.look.list.query({ id }),
      await api.board.commitments.query({ id }),
    ]);
  const others = view.seats.map((seat) => seat.id).filter((seat) => seat !== own);
  const told = await read(mentor?.api ?? owner.api);
  for (const seat of others) expect(told).not.toContain(seat);
  expect(told).toContain(own);
  expect(await read(owner.api)).not.toContain(own);
  expect((await owner.api.board.get.query({ id })).blindTo.join(' ')).toContain('can often be guessed');
});
