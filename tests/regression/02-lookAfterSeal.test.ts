import { expect, it } from 'vitest';
import { checkKeys } from '#lib/sheet/check';
import { systemRandom } from '#server/random';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

it('BL8: a record is not sealed over an open look, whose answers would show in it after', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  await playToReveal(quillmarsh);
  const { id, owner, seats } = quillmarsh;
  const { puppies, slots } = await owner.api.evaluation.get.query({ id });
  const [first, second] = puppies;
  const [slot] = slots;
  if (!first || !second || !slot) throw new Error('nothing to look at');
  await owner.api.decision.make.mutate({
    id,
    slotId: slot.id,
    puppyId: first.id,
    unexamined: [...checkKeys],
    reason: 'first of the panel',
    preference: false,
  });
  const look = await owner.api.look.open.mutate({
    id,
    slotId: slot.id,
    medium: 'table',
    pairs: [{ firstPuppyId: first.id, secondPuppyId: second.id }],
  });
  const answer = {
    id: systemRandom.id(),
    lookId: look.lookIds[0] ?? '',
    choice: 'tie' as const,
    criterion: null,
    madeAt: 1,
  };
  await expect(owner.api.decision.seal.mutate({ id })).rejects.toMatchObject({ data: { code: 'still-open' } });
  await owner.api.look.answer.mutate({ id, answer });
  await owner.api.look.close.mutate({ id, batchId: look.id });
  await owner.api.decision.seal.mutate({ id });
  await expect(
    seats['mentor']?.api.look.answer.mutate({ id, answer: { ...answer, id: systemRandom.id() } }),
  ).rejects.toMatchObject({ data: { code: 'wrong-phase' } });
});
