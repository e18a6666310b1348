import { expect, it } from 'vitest';
import { systemRandom } from '#server/random';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

/** The owner, while a look is open, reissues a seat that has answered and opens the new link in another browser. */
it('BL9: whoever opens a reissued seat reads no answer that its earlier device gave to a look still open', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  await playToReveal(quillmarsh);
  const { id, owner, seats } = quillmarsh;
  const { puppies, slots, seats: faces } = await owner.api.evaluation.get.query({ id });
  const [first, second] = puppies;
  const [slot] = slots;
  const mentor = faces.find((seat) => seat.label === 'mentor');
  if (!first || !second || !slot || !mentor) throw new Error('nothing to look at');
  const look = await owner.api.look.open.mutate({
    id,
    slotId: slot.id,
    medium: 'table',
    pairs: [{ firstPuppyId: first.id, secondPuppyId: second.id }],
  });
  const answer = (choice: 'first' | 'second') => ({
    id,
    answer: { id: systemRandom.id(), lookId: look.lookIds[0] ?? '', choice, criterion: null, madeAt: 1 },
  });
  await seats['mentor']?.api.look.answer.mutate(answer('second'));
  expect((await seats['mentor']?.api.look.list.query({ id }))?.[0]?.own).toEqual({ choice: 'second', criterion: null });

  const other = server.stranger();
  await other.api.session.join.mutate(await owner.api.setup.reissue.mutate({ id, seatId: mentor.id }));
  expect((await other.api.look.list.query({ id }))[0]?.own).toBeNull();

  await other.api.look.answer.mutate(answer('first'));
  expect((await other.api.look.list.query({ id }))[0]?.own).toEqual({ choice: 'first', criterion: null });
  await owner.api.look.answer.mutate(answer('first'));
  await owner.api.look.close.mutate({ id, batchId: look.id });
  const [closed] = await other.api.look.list.query({ id });
  expect(closed?.own).toEqual({ choice: 'first', criterion: null });
  expect(closed?.answers?.filter((one) => one.seat === mentor.id)).toEqual([
    { seat: mentor.id, choice: 'first', criterion: null },
  ]);
});
