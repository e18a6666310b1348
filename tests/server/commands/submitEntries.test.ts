import { expect, it } from 'vitest';
import type { Entry, EntryBody } from '#lib/contract/entry';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

async function setTable() {
  const server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner());
  const { id, owner, seats } = quillmarsh;
  await owner.api.evaluation.openRound.mutate({ id });
  const view = await owner.api.evaluation.get.query({ id });
  const { mentor } = seats;
  const criterion = view.sheet.criteria.find((one) => !one.twoSided && !one.handsOnly);
  const twoSided = view.sheet.criteria.find((one) => one.twoSided && !one.handsOnly);
  const [showing] = view.round?.showings ?? [];
  if (!mentor || !criterion || !twoSided || !showing) throw new Error('the table is not set');
  const entry = (body: EntryBody, counter = 1, subject = showing.id): Entry => ({
    id: systemRandom.id(),
    subject,
    counter,
    madeAt: 1,
    body,
  });
  const score = (value: number | null, counter = 1) =>
    entry({ kind: 'score', criterion: criterion.key, value, cannotJudge: false }, counter);
  return {
    [Symbol.asyncDispose]: () => server[Symbol.asyncDispose](),
    server,
    view,
    id,
    owner,
    mentor,
    seats,
    criterion,
    twoSided,
    showing,
    entry,
    score,
  };
}

it('SC2: the same entry sent again is answered as the first time and applied once', async () => {
  await using table = await setTable();
  const { server, id, mentor, score } = table;
  const once = score(4);
  const first = await mentor.api.card.submit.mutate({ id, entries: [once] });
  const data = dataOf(server.runtime.db);
  const again = await mentor.api.card.submit.mutate({ id, entries: [once, once] });
  expect(again).toEqual([...first, ...first]);
  expect(dataOf(server.runtime.db)).toBe(data);
});

it('SC6: entries sent again that these data lack are counted in the record, without a score; those that are here change nothing', async () => {
  await using table = await setTable();
  const { server, id, owner, mentor, score } = table;
  const lines = async () =>
    (await owner.api.record.list.query({ id }))
      .filter(({ kind }) => kind === 'entries-sent-again')
      .map(({ detail }) => detail);
  const here = score(4);
  await mentor.api.card.submit.mutate({ id, entries: [here] });
  const data = dataOf(server.runtime.db);
  await mentor.api.card.submit.mutate({ id, entries: [{ ...here, again: true }] });
  expect([await lines(), dataOf(server.runtime.db) === data]).toEqual([[], true]);
  const lacking = [score(5, 2), score(6, 3)].map((entry) => ({ ...entry, again: true as const }));
  const outcomes = await mentor.api.card.submit.mutate({ id, entries: [...lacking, score(7, 4)] });
  expect(outcomes.map(({ status }) => status)).toEqual(['applied', 'applied', 'applied']);
  expect(await lines()).toEqual(['2']);
  expect((await mentor.api.card.mine.query({ id })).answers).toMatchObject([{ counter: 4, body: { value: 7 } }]);
});

it('SC2: of two pages of one device that counted alike, what was tapped later stands, whichever comes first', async () => {
  await using table = await setTable();
  const { id, mentor, score } = table;
  const standing = async () =>
    (await mentor.api.card.mine.query({ id })).answers.map(({ body }) => body.kind === 'score' && body.value);
  const send = async (value: number, { counter, madeAt }: { readonly counter: number; readonly madeAt: number }) =>
    (await mentor.api.card.submit.mutate({ id, entries: [{ ...score(value, counter), madeAt }] }))[0]?.status;
  expect([
    await send(2, { counter: 1, madeAt: 10 }),
    await send(3, { counter: 1, madeAt: 20 }),
    await standing(),
  ]).toEqual(['applied', 'applied', [3]]);
  expect([
    await send(4, { counter: 2, madeAt: 40 }),
    await send(5, { counter: 2, madeAt: 30 }),
    await standing(),
  ]).toEqual(['applied', 'superseded', [4]]);
});

it('SC2: an entry id of another seat is refused without a word of what it holds', async () => {
  await using table = await setTable();
  const { id, owner, mentor, score } = table;
  const theirs = score(4);
  await mentor.api.card.submit.mutate({ id, entries: [theirs] });
  const [outcome] = await owner.api.card.submit.mutate({ id, entries: [{ ...score(5), id: theirs.id }] });
  expect(outcome).toEqual({ id: theirs.id, status: 'refused', code: 'bad-input' });
});

it('SC3: the newest edit is in force whatever the order of arrival, and every edit is in the history', async () => {
  await using table = await setTable();
  const { server, id, mentor, score } = table;
  const outcomes = await mentor.api.card.submit.mutate({ id, entries: [score(2, 1), score(6, 3), score(4, 2)] });
  expect(outcomes.map((outcome) => outcome.status)).toEqual(['applied', 'applied', 'superseded']);
  const { answers } = await mentor.api.card.mine.query({ id });
  expect(answers.map((answer) => answer.body)).toEqual([expect.objectContaining({ value: 6 })]);
  expect(server.runtime.db.$client.prepare('SELECT count(*) AS n FROM entry').get()).toEqual({ n: 3 });
});

it('SC5: an entry after the lock is kept as late and never applied', async () => {
  await using table = await setTable();
  const { server, id, mentor, score } = table;
  await mentor.api.card.submit.mutate({ id, entries: [score(2)] });
  await lockCard(mentor, id);
  const [outcome] = await mentor.api.card.submit.mutate({ id, entries: [score(7, 2)] });
  expect(outcome?.status).toBe('late');
  const { answers } = await mentor.api.card.mine.query({ id });
  expect(answers.map((answer) => answer.body)).toEqual([expect.objectContaining({ value: 2 })]);
  expect(server.runtime.db.$client.prepare("SELECT count(*) AS n FROM entry WHERE status = 'late'").get()).toEqual({
    n: 1,
  });
});

it('SC5, BL7: an entry after the reveal is never applied, and every board that is open hears that one more came late', async () => {
  await using table = await setTable();
  const { server, id, owner, mentor, seats, score } = table;
  await mentor.api.card.submit.mutate({ id, entries: [score(2)] });
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  const bells: string[] = [];
  const silence = server.runtime.hub.subscribe(({ event }) => bells.push(event.audience));
  await mentor.api.card.submit.mutate({ id, entries: [score(7, 2)] });
  expect(bells).toEqual(['own']);
  await owner.api.evaluation.revealRound.mutate({ id });
  bells.length = 0;
  const [outcome] = await mentor.api.card.submit.mutate({ id, entries: [score(6, 3)] });
  silence();
  expect(outcome?.status).toBe('late');
  expect(bells.toSorted()).toEqual(['all', 'own']);
  expect((await owner.api.board.get.query({ id })).lateEntries).toBe(2);
  expect((await mentor.api.card.mine.query({ id })).answers.map((answer) => answer.body)).toEqual([
    expect.objectContaining({ value: 2 }),
  ]);
});

it('SC2: each unsound entry has its own code, and the sound ones beside it are taken', async () => {
  await using table = await setTable();
  const { server, id, view, mentor, criterion, twoSided, entry, score, showing } = table;
  const handsOnly = view.sheet.criteria.find((one) => one.handsOnly);
  const slot = view.slots[0]?.id ?? '';
  const cases: [Entry, string | null][] = [
    [score(8), 'out-of-scale'],
    [score(0), 'out-of-scale'],
    [entry({ kind: 'score', criterion: twoSided.key, value: 4, cannotJudge: false }), 'out-of-scale'],
    [entry({ kind: 'score', criterion: criterion.key, value: 4, cannotJudge: true }), 'bad-input'],
    [entry({ kind: 'score', criterion: 'no-such', value: 4, cannotJudge: false }), 'bad-input'],
    [entry({ kind: 'check', check: 'breathing', answer: 'no-such', detail: '' }), 'bad-input'],
    [entry({ kind: 'check', check: 'palate', answer: null, detail: '' }), 'not-allowed'],
    [entry({ kind: 'manner', manner: 'tense' }, 1, systemRandom.id()), 'not-found'],
    [entry({ kind: 'choice', puppy: systemRandom.id(), reason: '', chance: null }, 1, slot), 'not-found'],
    [entry({ kind: 'choice', puppy: showing.puppyId, reason: '', chance: null }, 1, showing.id), 'not-found'],
    [entry({ kind: 'score', criterion: twoSided.key, value: -3, cannotJudge: false }), null],
    [score(null), null],
    ...(handsOnly
      ? [
          [entry({ kind: 'score', criterion: handsOnly.key, value: 4, cannotJudge: false }), 'not-allowed'] as [
            Entry,
            string,
          ],
        ]
      : []),
  ];
  const outcomes = await mentor.api.card.submit.mutate({ id, entries: cases.map(([one]) => one) });
  expect(outcomes.map((outcome) => outcome.code)).toEqual(cases.map(([, code]) => code));
  expect(server.runtime.db.$client.prepare('SELECT count(*) AS n FROM entry').get()).toEqual({
    n: cases.filter(([, code]) => code === null).length,
  });
});

it('SC4: a batch with an entry of a shape nobody knows is refused whole', async () => {
  await using table = await setTable();
  const { server, id, mentor, score } = table;
  const before = dataOf(server.runtime.db);
  const torn = { ...score(4), id: 'not an id' };
  await expect(mentor.api.card.submit.mutate({ id, entries: [score(4), torn] })).rejects.toMatchObject({
    data: { code: 'bad-input' },
  });
  expect(dataOf(server.runtime.db)).toBe(before);
});
