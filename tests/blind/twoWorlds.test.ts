import { expect, it, vi } from 'vitest';
import type { Entry, EntryBody } from '#lib/contract/entry';
import { listenLive } from '#tests/support/listenLive';
import { lockCard } from '#tests/support/lockCard';
import { maskPromises } from '#tests/support/maskPromises';
import { readEverything } from '#tests/support/readEverything';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

type World = { readonly score: number; readonly note: string; readonly answer: string };

/**
 * Plays the same evaluation with the mentor's and the co-owner's values as given, up to the instant before reveal, and
 * returns everything the watching seat received: every query's status, headers and body, its own calls, and every frame
 * of its socket, in order. Ids and clock are injected.
 */
async function play(world: World, watching: 'owner' | 'photographer'): Promise<string[]> {
  await using server = await startTestServer({ seed: 'two worlds' });
  const quillmarsh = await seedQuillmarsh(await server.owner());
  const { id, owner, seats } = quillmarsh;
  const watcher = watching === 'owner' ? owner : seats[watching];
  if (!watcher) throw new Error('nobody watches');
  await owner.api.evaluation.openRound.mutate({ id });
  const ear = await hear(watcher);
  const read: string[] = [];
  const look = async () => void read.push(...(await readEverything(watcher, { id, seq: 3 })));
  for (const [label, client] of Object.entries(seats)) {
    if (client !== watcher) await scoreEverything(client, { id, label, world });
    await look();
    server.pass(1000);
    if (client !== watcher) await lockCard(client, id);
    await look();
  }
  const untilClosed = read.length;
  const callsUntilClosed = watcher.received.length;
  await lockCard(owner, id);
  // The owner's lock is the last one awaited, unless the photographer is watching and has not locked.
  if (watching !== 'owner') await owner.api.evaluation.closeRound.mutate({ id });
  await look();
  const { versions } = await watcher.api.evaluation.get.query({ id });
  const frames = await ear.until(versions.all);
  const masked = (texts: readonly string[], from: number) =>
    texts.map((text, at) => (at < from ? text : maskPromises(text)).replace(/\["date","[^"]*"\]/, '["date"]'));
  return [...masked(read, untilClosed), ...masked(watcher.received, callsUntilClosed), ...frames];
}

/** What the socket of a client is told, from now on. */
async function hear(client: TestClient): Promise<{ until(version: number): Promise<string[]> }> {
  const socket = await listenLive(client);
  const frames: string[] = [];
  socket.io.engine.on('packet', ({ type, data }: { readonly type: string; readonly data?: unknown }) => {
    if (type === 'message') frames.push(String(data));
  });
  return {
    until: async (version) => {
      await vi.waitFor(() =>
        expect(
          frames.some((frame) => frame.includes('"audience":"all"') && frame.includes(`"version":${version},`)),
        ).toBe(true),
      );
      socket.close();
      return frames;
    },
  };
}

async function scoreEverything(
  client: TestClient,
  { id, label, world }: { readonly id: string; readonly label: string; readonly world: World },
): Promise<void> {
  const view = await client.api.evaluation.get.query({ id });
  const showings = view.round?.showings ?? [];
  let made = 0;
  const entry = (subject: string, body: EntryBody): Entry => ({
    id: `${label.length}${(made += 1)}`.padEnd(32, label.charCodeAt(0).toString(16)),
    subject,
    counter: 1,
    madeAt: 1,
    body,
  });
  for (const showing of showings) {
    const scores = view.sheet.criteria
      .filter((criterion) => !criterion.handsOnly)
      .map((criterion) =>
        entry(showing.id, {
          kind: 'score',
          criterion: criterion.key,
          value: criterion.twoSided ? world.score - 3 : world.score,
          cannotJudge: false,
        }),
      );
    const rest = [
      entry(showing.id, { kind: 'note', criterion: null, text: world.note }),
      entry(showing.id, { kind: 'check', check: 'breathing', answer: world.answer, detail: world.note }),
    ];
    const outcomes = await client.api.card.submit.mutate({ id, entries: [...scores, ...rest] });
    expect(outcomes.every((outcome) => outcome.status === 'applied')).toBe(true);
  }
}

it.each(['owner', 'photographer'] as const)(
  'BL4: what the %s receives until reveal is the same to the byte, whatever the others scored',
  async (watching) => {
    const one = await play({ score: 1, note: 'short', answer: 'quiet' }, watching);
    const other = await play(
      { score: 6, note: 'a much longer note, of quite another length', answer: 'not-examined' },
      watching,
    );
    expect(one.length).toBeGreaterThan(200);
    expect(one.filter((text) => text.includes('"audience":"all"')).length).toBeGreaterThan(2);
    expect(other).toEqual(one);
  },
);

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

/** A second round of two questions after the same first one; what the co-owner receives until it is revealed. */
async function playSecond(value: number): Promise<string[]> {
  await using server = await startTestServer({ seed: 'second worlds' });
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  await playToReveal(quillmarsh);
  const { id, owner, seats } = quillmarsh;
  const watcher = seats['co-owner'];
  if (!watcher) throw new Error('nobody watches');
  const view = await owner.api.evaluation.get.query({ id });
  const criterion = view.sheet.criteria.find((one) => !one.twoSided && !one.handsOnly)?.key ?? '';
  await owner.api.evaluation.openSecondRound.mutate({
    id,
    cells: view.puppies.map((puppy) => ({ puppyId: puppy.id, criterion })),
  });
  const { round } = await owner.api.evaluation.get.query({ id });
  const read: string[] = [];
  // The ids of the watcher's own entries in the first round differ by chance, and only its own history shows them.
  const look = async () => void read.push(...(await readEverything(watcher, { id, seq: 3 }, ['person.mine'])));
  for (const [at, client] of [seats['mentor'], seats['photographer'], owner].entries()) {
    const entries = (round?.showings ?? []).map(
      (showing, place): Entry => ({
        id: `${at}${place}`.padStart(32, 'd'),
        subject: showing.id,
        counter: 1,
        madeAt: 1,
        body: { kind: 'score', criterion, value, cannotJudge: false },
      }),
    );
    const outcomes = await client?.api.card.submit.mutate({ id, entries });
    expect(outcomes?.map((outcome) => outcome.status)).toEqual(entries.map(() => 'applied'));
    await lockCard(client, id);
    await look();
  }
  const untilClosed = read.length;
  await owner.api.evaluation.closeRound.mutate({ id });
  await look();
  return read.map((text, at) => (at < untilClosed ? text : maskPromises(text)));
}

it('BL4: in a second round, too, what a seat receives until it is revealed is the same to the byte, whatever the others scored', async () => {
  const one = await playSecond(2);
  expect(one.length).toBeGreaterThan(200);
  expect(await playSecond(6)).toEqual(one);
});
