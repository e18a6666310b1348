import { expect, it } from 'vitest';
import type { EntryBody } from '#lib/contract/entry';
import { checkKeys } from '#lib/sheet/check';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });

async function revealWithCheck(body: EntryBody) {
  const server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  const { id, owner, seats } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  for (const client of [owner, ...Object.values(seats)]) await scoreCard(client, id, steadyCell);
  const view = await owner.api.evaluation.get.query({ id });
  const [showing] = view.round?.showings ?? [];
  if (!showing) throw new Error('no showing');
  await owner.api.card.submit.mutate({
    id,
    entries: [{ id: systemRandom.id(), subject: showing.id, counter: 2, madeAt: 1, body }],
  });
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  return {
    [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](),
    server,
    ...quillmarsh,
    held: showing.puppyId,
    slotId: view.slots[0]?.id ?? '',
  };
}

it('SA1: a show or breeding keep is picked only by who names every check that nobody made, and the record says which they were', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  await owner.api.evaluation.openRound.mutate({ id });
  const { round, slots } = await owner.api.evaluation.get.query({ id });
  const [{ id: subject, puppyId: held } = { id: '', puppyId: '' }] = round?.showings ?? [];
  const nobody = (['bite', 'tail'] as const).map(
    (check) => ({ kind: 'check', check, answer: 'not-examined', detail: '' }) as const,
  );
  for (const client of [owner, ...Object.values(seats)]) {
    await scoreCard(client, id, steadyCell);
    await client.api.card.submit.mutate({
      id,
      entries: nobody.map((body) => ({ id: systemRandom.id(), subject, counter: 2, madeAt: 1, body })),
    });
  }
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  const slotId = slots[0]?.id ?? '';
  const open =
    (await owner.api.decision.get.query({ id })).unexamined.find(({ puppyId }) => puppyId === held)?.checks ?? [];
  expect(open).toEqual(['bite', 'tail']);
  const pick = { id, slotId, puppyId: held, reason: '', preference: false };
  const before = dataOf(server.runtime.db);
  for (const unexamined of [[], ['bite'], ['palate', 'tail']]) {
    await expect(owner.api.decision.make.mutate({ ...pick, unexamined })).rejects.toMatchObject(code('unexamined'));
  }
  expect(dataOf(server.runtime.db)).toBe(before);
  await owner.api.decision.make.mutate({ ...pick, unexamined: open });
  const entries = await owner.api.record.list.query({ id });
  expect(entries.find(({ kind }) => kind === 'decided')?.detail).toMatch(
    /^place 1: \w+, examined by nobody: bite, tail \[/,
  );
});

it('SA1: one seat’s "watch" on the bite holds a keep until a veterinary answer is recorded', async () => {
  await using table = await revealWithCheck({ kind: 'check', check: 'bite', answer: 'undershot', detail: '2 mm' });
  const { server, id, owner, held, slotId } = table;
  const pick = { id, slotId, puppyId: held, unexamined: [...checkKeys], reason: '', preference: false };
  const before = dataOf(server.runtime.db);
  await expect(owner.api.decision.make.mutate(pick)).rejects.toMatchObject(code('on-hold'));
  expect(dataOf(server.runtime.db)).toBe(before);
  const chances = (await owner.api.board.get.query({ id })).slots[0]?.chances.map((chance) => chance.puppy);
  expect(chances).not.toContain(held);
  await owner.api.decision.answerHold.mutate({
    id,
    puppyId: held,
    check: 'bite',
    answer: 'no concern; look again at 12 weeks',
    by: 'veterinary surgeon',
    choice: { kind: 'cleared' },
  });
  expect((await owner.api.board.get.query({ id })).slots[0]?.chances.map((chance) => chance.puppy)).toContain(held);
  await owner.api.decision.make.mutate(pick);
});

it('SA1: of all veterinary answers only one that the owner chooses as clearing lets a hold fall, and none is lost', async () => {
  await using table = await revealWithCheck({ kind: 'check', check: 'bite', answer: 'undershot', detail: '2 mm' });
  const { server, id, owner, seats, held, slotId } = table;
  const pick = { id, slotId, puppyId: held, unexamined: [...checkKeys], reason: '', preference: false };
  const answer = {
    id,
    puppyId: held,
    check: 'bite',
    answer: 'Serious defect, must not be bred from',
    by: 'veterinary surgeon',
  };
  const before = dataOf(server.runtime.db);
  const yesterday = new Date(server.runtime.clock.now() - 2 * 86_400_000).toISOString().slice(0, 10);
  await expect(
    owner.api.decision.answerHold.mutate({ ...answer, choice: { kind: 'again', on: yesterday } }),
  ).rejects.toMatchObject(code('day-past'));
  await expect(
    owner.api.decision.answerHold.mutate({ ...answer, check: 'gait', choice: { kind: 'cleared' } }),
  ).rejects.toMatchObject(code('not-found'));
  await expect(
    seats['mentor']?.api.decision.answerHold.mutate({ ...answer, choice: { kind: 'cleared' } }),
  ).rejects.toMatchObject(code('not-allowed'));
  expect(dataOf(server.runtime.db)).toBe(before);
  const holding = async () => ({
    stands: (await owner.api.decision.get.query({ id })).holds.map(({ stands }) => stands),
    board: (await owner.api.board.get.query({ id })).checks.find(
      ({ puppy, check }) => puppy === held && check === 'bite',
    )?.holds,
    offered: (await owner.api.board.get.query({ id })).slots[0]?.chances.some(({ puppy }) => puppy === held),
  });
  const tomorrow = new Date(server.runtime.clock.now() + 86_400_000).toISOString().slice(0, 10);
  for (const choice of [{ kind: 'stays' }, { kind: 'again', on: tomorrow }] as const) {
    await owner.api.decision.answerHold.mutate({ ...answer, choice });
    expect(await holding()).toEqual({ stands: [true], board: true, offered: false });
    await expect(owner.api.decision.make.mutate(pick)).rejects.toMatchObject(code('on-hold'));
  }
  await owner.api.decision.answerHold.mutate({
    ...answer,
    answer: 'looked again: closed',
    choice: { kind: 'cleared' },
  });
  expect(await holding()).toEqual({ stands: [false], board: false, offered: true });
  await owner.api.decision.make.mutate(pick);
  const [hold] = (await owner.api.decision.get.query({ id })).holds;
  expect(hold?.said.map(({ answer: words, choice }) => [words, choice?.kind])).toEqual([
    [answer.answer, 'stays'],
    [answer.answer, 'again'],
    ['looked again: closed', 'cleared'],
  ]);
  const lines = (await owner.api.record.list.query({ id }))
    .filter(({ kind }) => kind === 'hold-answered')
    .map(({ detail }) => detail.replace(/ \[.*/, '').replace(/^\w+, /, ''));
  expect(lines).toEqual(['bite: the hold stays', `bite: look again on ${tomorrow}`, 'bite: cleared']);
});

it('SA1: a hold that comes back after the pick keeps the record open until the pick is taken back or an answer clears it', async () => {
  await using table = await revealWithCheck({ kind: 'check', check: 'bite', answer: 'undershot', detail: '' });
  const { id, owner, held, slotId } = table;
  const answer = { id, puppyId: held, check: 'bite', answer: 'seen again', by: 'veterinary surgeon' };
  await owner.api.decision.answerHold.mutate({ ...answer, choice: { kind: 'cleared' } });
  await owner.api.decision.make.mutate({
    id,
    slotId,
    puppyId: held,
    unexamined: [...checkKeys],
    reason: '',
    preference: false,
  });
  for (const slot of (await owner.api.evaluation.get.query({ id })).slots.slice(1))
    await owner.api.decision.make.mutate({
      id,
      slotId: slot.id,
      puppyId: null,
      unexamined: [],
      reason: '',
      preference: false,
    });
  await owner.api.decision.answerHold.mutate({ ...answer, choice: { kind: 'stays' } });
  expect((await owner.api.decision.get.query({ id })).maySeal).toBe(false);
  await expect(owner.api.decision.seal.mutate({ id })).rejects.toMatchObject(code('on-hold'));
  await owner.api.decision.answerHold.mutate({ ...answer, choice: { kind: 'cleared' } });
  expect((await owner.api.decision.get.query({ id })).maySeal).toBe(true);
  await owner.api.decision.seal.mutate({ id });
});

it('ST2: whether a pick followed the panel is said of the panel at that moment, whatever changed while it was computed', async () => {
  await using table = await revealWithCheck({ kind: 'check', check: 'bite', answer: 'undershot', detail: '2 mm' });
  const { server, id, owner, held, slotId } = table;
  const { reconciler } = server.runtime;
  const asked: (readonly string[])[] = [];
  let between = async () =>
    void (await owner.api.decision.answerHold.mutate({
      id,
      puppyId: held,
      check: 'bite',
      answer: 'no concern',
      by: 'veterinary surgeon',
      choice: { kind: 'cleared' },
    }));
  Object.assign(server.runtime, {
    reconciler: {
      ...reconciler,
      reconcile: async (question: Parameters<typeof reconciler.reconcile>[0]) => {
        asked.push(question.slots.find((slot) => slot.key === slotId)?.eligible ?? []);
        const clear = between;
        between = async () => undefined;
        await clear();
        return reconciler.reconcile(question);
      },
    } satisfies typeof reconciler,
  });
  const free = (await owner.api.evaluation.get.query({ id })).puppies.find(
    (puppy) => puppy.id !== held && puppy.sex === 'bitch',
  );
  await owner.api.decision.make.mutate({
    id,
    slotId,
    puppyId: free?.id ?? '',
    unexamined: [...checkKeys],
    reason: 'the panel’s',
    preference: true,
  });
  expect(asked.map((eligible) => eligible.includes(held))).toEqual([false, true]);
});

it('SA1: a kink in the tail is shown and holds nothing', async () => {
  await using table = await revealWithCheck({ kind: 'check', check: 'tail', answer: 'kink', detail: '' });
  const { id, owner, held } = table;
  expect((await owner.api.decision.get.query({ id })).holds).toEqual([]);
  expect((await owner.api.board.get.query({ id })).slots[0]?.chances.map((chance) => chance.puppy)).toContain(held);
});

it('SC3: a pick taken back stays in the history, and says whether it had followed the panel', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await bringTo(server, 'revealed');
  const board = await owner.api.board.get.query({ id });
  const [slot] = board.slots;
  const last = slot?.chances.at(-1);
  if (!slot || !last) throw new Error('nobody to pick');
  await expect(
    seats['mentor']?.api.decision.make.mutate({
      id,
      slotId: slot.slotId,
      puppyId: last.puppy,
      unexamined: [...checkKeys],
      reason: '',
      preference: false,
    }),
  ).rejects.toMatchObject(code('not-allowed'));
  await owner.api.decision.make.mutate({
    id,
    slotId: slot.slotId,
    puppyId: last.puppy,
    unexamined: [...checkKeys],
    reason: 'I like her',
    preference: true,
  });
  const [decision] = (await owner.api.decision.get.query({ id })).decisions;
  expect(decision).toMatchObject({ by: 'owner', reason: 'I like her', preference: true, followedPanel: false });
  await owner.api.decision.takeBack.mutate({ id });
  expect((await owner.api.decision.get.query({ id })).decisions).toEqual([]);
  await expect(owner.api.decision.seal.mutate({ id })).rejects.toMatchObject(code('still-open'));
  expect(server.runtime.db.$client.prepare('SELECT count(*) AS n FROM decision').get()).toEqual({ n: 2 });
});

it('SC3: after sealing nothing of the evaluation changes', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'sealed');
  const before = dataOf(server.runtime.db);
  const note = {
    id,
    noteId: systemRandom.id(),
    slotId: null,
    puppyId: null,
    otherPuppyId: null,
    criterion: null,
    text: 'too late',
  };
  await expect(owner.api.board.addNote.mutate(note)).rejects.toMatchObject(code('wrong-phase'));
  await expect(owner.api.decision.takeBack.mutate({ id })).rejects.toMatchObject(code('wrong-phase'));
  expect(dataOf(server.runtime.db)).toBe(before);
});

it('SC3: a place may be left empty with a reason, so that an order nobody fits can still be sealed', async () => {
  await using server = await startTestServer();
  const { id, owner } = await bringTo(server, 'revealed');
  const [slot] = (await owner.api.board.get.query({ id })).slots;
  await owner.api.decision.make.mutate({
    id,
    slotId: slot?.slotId ?? '',
    puppyId: null,
    unexamined: [...checkKeys],
    reason: 'no show keep from this litter',
    preference: false,
  });
  expect((await owner.api.decision.get.query({ id })).decisions).toMatchObject([
    { puppyId: null, followedPanel: null, reason: 'no show keep from this litter' },
  ]);
  expect((await owner.api.board.get.query({ id })).slots[0]).toMatchObject({
    chances: [],
    filledBy: null,
    close: false,
  });
  await owner.api.decision.seal.mutate({ id });
  expect((await owner.api.evaluation.get.query({ id })).phase).toBe('sealed');
});
