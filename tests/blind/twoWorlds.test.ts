import { expect, it } from 'vitest';
import type { Entry, EntryBody } from '#lib/contract/entry';
import { lockCard } from '#tests/support/lockCard';
import { maskPromises } from '#tests/support/maskPromises';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

type World = { readonly score: number; readonly note: string; readonly answer: string };

/**
 * Plays the same evaluation with the mentor's and the co-owner's values as given, up to the instant before reveal, and
 * returns everything the watching seat received: bodies, headers, order. Ids and clock are injected.
 */
async function play(world: World, watching: 'owner' | 'photographer'): Promise<string[]> {
  await using server = await startTestServer({ seed: 'two worlds' });
  const quillmarsh = await seedQuillmarsh(await server.owner());
  const { id, owner, seats } = quillmarsh;
  const watcher = watching === 'owner' ? owner : seats[watching];
  if (!watcher) throw new Error('nobody watches');
  await owner.api.evaluation.openRound.mutate({ id });
  for (const [label, client] of Object.entries(seats)) {
    await look(watcher, id);
    if (client !== watcher) await scoreEverything(client, { id, label, world });
    await look(watcher, id);
    server.pass(1000);
    if (client !== watcher) await lockCard(client, id);
    await look(watcher, id);
  }
  const untilClosed = watcher.received.length;
  await lockCard(owner, id);
  // The owner's lock is the last one awaited, unless the photographer is watching and has not locked.
  if (watching !== 'owner') await owner.api.evaluation.closeRound.mutate({ id });
  await look(watcher, id);
  // The date header is the operating system's; connection headers are the transport's.
  return watcher.received.map((text, at) => (at < untilClosed ? text : maskPromises(text)).replace(/\["date","[^"]*"\]/, '["date"]'));
}

async function look(watcher: TestClient, id: string): Promise<void> {
  await watcher.api.evaluation.get.query({ id });
  await watcher.api.card.mine.query({ id });
  await watcher.api.look.list.query({ id });
  await watcher.api.record.list.query({ id });
  await watcher.api.board.notes.query({ id });
  await watcher.api.board.get.query({ id }).catch(() => undefined);
  await watcher.api.board.coefficients.query({ id }).catch(() => undefined);
  await watcher.api.decision.get.query({ id }).catch(() => undefined);
}

async function scoreEverything(client: TestClient, { id, label, world }: { readonly id: string; readonly label: string; readonly world: World }): Promise<void> {
  const view = await client.api.evaluation.get.query({ id });
  const showings = view.round?.showings ?? [];
  let made = 0;
  const entry = (subject: string, body: EntryBody): Entry => ({ id: `${label.length}${(made += 1)}`.padEnd(32, label.charCodeAt(0).toString(16)), subject, counter: 1, madeAt: 1, body });
  for (const showing of showings) {
    const scores = view.sheet.criteria
      .filter((criterion) => !criterion.handsOnly)
      .map((criterion) => entry(showing.id, { kind: 'score', criterion: criterion.key, value: criterion.twoSided ? world.score - 3 : world.score, cannotJudge: false }));
    const rest = [entry(showing.id, { kind: 'note', criterion: null, text: world.note }), entry(showing.id, { kind: 'check', check: 'breathing', answer: world.answer, detail: world.note })];
    const outcomes = await client.api.card.submit.mutate({ id, entries: [...scores, ...rest] });
    expect(outcomes.every((outcome) => outcome.status === 'applied')).toBe(true);
  }
}

it.each(['owner', 'photographer'] as const)('BL4: what the %s receives until reveal is the same to the byte, whatever the others scored', async (watching) => {
  const one = await play({ score: 1, note: 'short', answer: 'quiet' }, watching);
  const other = await play({ score: 6, note: 'a much longer note, of quite another length', answer: 'not-examined' }, watching);
  expect(one.length).toBeGreaterThan(40);
  expect(other).toEqual(one);
});

it('BL4: the comparison can fail: a seat that scores otherwise itself receives otherwise', async () => {
  const own = async (score: number) => {
    await using server = await startTestServer({ seed: 'two worlds' });
    const { id, owner } = await seedQuillmarsh(await server.owner());
    await owner.api.evaluation.openRound.mutate({ id });
    await scoreEverything(owner, { id, label: 'owner', world: { score, note: 'the same', answer: 'quiet' } });
    await owner.api.card.mine.query({ id });
    return owner.received;
  };
  expect(await own(6)).not.toEqual(await own(1));
});
