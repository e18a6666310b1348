import { expect, it } from 'vitest';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

type Choice = 'first' | 'second' | 'tie';
type World = {
  readonly choice: Choice;
  readonly names: boolean;
  readonly minds: readonly Choice[];
  readonly close?: boolean;
};

/** Everything one seat receives while a look is open and another seat answers it as given, and changes its mind. */
async function play({ choice, names, minds, close = false }: World, watching: 'owner' | 'co-owner'): Promise<string[]> {
  await using server = await startTestServer({ seed: 'look worlds' });
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  await playToReveal(quillmarsh);
  const { id, owner, seats } = quillmarsh;
  const { puppies, slots, sheet } = await owner.api.evaluation.get.query({ id });
  const watcher = watching === 'owner' ? owner : seats[watching];
  const [first, second] = puppies;
  const [slot] = slots;
  if (!watcher || !first || !second || !slot) throw new Error('nothing to look at');
  const look = await owner.api.look.open.mutate({
    id,
    slotId: slot.id,
    medium: 'table',
    pairs: [{ firstPuppyId: first.id, secondPuppyId: second.id }],
  });
  // What came before, the ids of the watcher's own entries with it, differs by chance.
  const earlier = watcher.received.length;
  const criterion = names ? (sheet.criteria[0]?.key ?? null) : null;
  for (const [place, mind] of [...minds, choice].entries()) {
    const answer = {
      id: `${place}`.padStart(32, 'a'),
      lookId: look.lookIds[0] ?? '',
      choice: mind,
      criterion,
      madeAt: 1,
    };
    await seats['mentor']?.api.look.answer.mutate({ id, answer });
    await watcher.api.evaluation.get.query({ id });
    await watcher.api.look.list.query({ id });
    await watcher.api.board.get.query({ id });
    await watcher.api.board.coefficients.query({ id });
    await watcher.api.board.notes.query({ id });
    await watcher.api.decision.get.query({ id });
    await watcher.api.record.list.query({ id });
  }
  if (close) {
    await owner.api.look.answer.mutate({
      id,
      answer: { id: 'b'.repeat(32), lookId: look.lookIds[0] ?? '', choice: 'tie', criterion: null, madeAt: 1 },
    });
    await owner.api.look.close.mutate({ id, batchId: look.id });
    await watcher.api.look.list.query({ id });
  }
  return watcher.received.slice(earlier).map((text) => text.replace(/\["date","[^"]*"\]/, '["date"]'));
}

it.each(['owner', 'co-owner'] as const)(
  'BL4, BL8: what the %s receives while a look is open is the same to the byte, whatever another seat answers',
  async (watching) => {
    const one = await play({ choice: 'first', names: false, minds: ['first'] }, watching);
    const other = await play({ choice: 'tie', names: true, minds: ['second'] }, watching);
    expect(one.length).toBeGreaterThan(20);
    expect(other).toEqual(one);
  },
);

it('BL8: the comparison can fail: once the look is closed what a seat receives is told apart by the answers', async () => {
  const closed = (choice: Choice) => play({ choice, names: false, minds: [], close: true }, 'co-owner');
  expect(await closed('second')).not.toEqual(await closed('first'));
});
