import { expect, it } from 'vitest';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { checkKeys } from '#lib/sheet/check';
import { systemRandom } from '#server/random';
import { dataOf } from '#tests/support/dataOf';
import { lockCard } from '#tests/support/lockCard';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { bringTo } from '#tests/support/stages';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

const code = (expected: string) => ({ data: { code: expected } });

/** A revealed first round of three puppies, and two of its cells to ask again. */
async function revealed(server: TestServer) {
  const quillmarsh = await bringTo(server, 'revealed');
  const { id, owner, seats } = quillmarsh;
  const view = await owner.api.evaluation.get.query({ id });
  const open = view.sheet.criteria.filter((one) => !one.handsOnly && !one.twoSided);
  const [fern, moss] = view.puppies;
  const [criterion, other] = open;
  if (!fern || !moss || !criterion || !other) throw new Error('the test litter has two puppies and two such criteria');
  const cells = [
    { puppyId: fern.id, criterion: criterion.key },
    { puppyId: moss.id, criterion: criterion.key },
  ];
  const all = [owner, ...Object.values(seats)];
  const score = async (client: TestClient | undefined, puppyId: string, value: number, key = criterion.key) => {
    const round = (await owner.api.evaluation.get.query({ id })).round;
    const subject = round?.showings.find((showing) => showing.puppyId === puppyId)?.id ?? '';
    const body = { kind: 'score', criterion: key, value, cannotJudge: false } as const;
    return client?.api.card.submit.mutate({
      id,
      entries: [{ id: systemRandom.id(), subject, counter: 1, madeAt: 1, body }],
    });
  };
  return { ...quillmarsh, view, fern, moss, criterion, other, cells, all, score };
}

it('BL7: only the owner opens a second round, only of known cells, only after the first reveal and before any decision', async () => {
  await using server = await startTestServer();
  const open = await bringTo(server, 'open');
  const cell = {
    puppyId: (await open.owner.api.evaluation.get.query({ id: open.id })).puppies[0]?.id ?? '',
    criterion: 'neck',
  };
  await expect(open.owner.api.evaluation.openSecondRound.mutate({ id: open.id, cells: [cell] })).rejects.toMatchObject(
    code('wrong-phase'),
  );
  await using other = await startTestServer();
  const { id, owner, seats, cells, fern, view } = await revealed(other);
  const before = dataOf(other.runtime.db);
  await expect(seats['mentor']?.api.evaluation.openSecondRound.mutate({ id, cells })).rejects.toMatchObject(
    code('not-allowed'),
  );
  for (const bad of [
    [],
    [...cells, ...cells],
    [{ puppyId: fern.id, criterion: 'no-such-thing' }],
    [{ puppyId: systemRandom.id(), criterion: 'neck' }],
  ]) {
    await expect(owner.api.evaluation.openSecondRound.mutate({ id, cells: bad })).rejects.toMatchObject(
      code('bad-input'),
    );
  }
  expect(dataOf(other.runtime.db)).toBe(before);
  await owner.api.decision.make.mutate({
    id,
    slotId: view.slots[0]?.id ?? '',
    puppyId: fern.id,
    unexamined: [...checkKeys],
    reason: '',
    preference: false,
  });
  await expect(owner.api.evaluation.openSecondRound.mutate({ id, cells })).rejects.toMatchObject(code('in-use'));
});

it('BL1, SC5: a second round takes scores of its cells only; what comes for the first is kept as late', async () => {
  await using server = await startTestServer();
  const { id, owner, seats, cells, fern, moss, criterion, other, score, view } = await revealed(server);
  await owner.api.evaluation.openSecondRound.mutate({ id, cells });
  const mentor = seats['mentor'];
  expect((await score(mentor, fern.id, 7))?.[0]).toMatchObject({ status: 'applied' });
  expect((await score(mentor, moss.id, 2, other.key))?.[0]).toMatchObject({ status: 'refused', code: 'bad-input' });
  const first = view.round?.showings[0]?.id ?? '';
  const late = {
    id: systemRandom.id(),
    subject: first,
    counter: 99,
    madeAt: 1,
    body: { kind: 'score', criterion: criterion.key, value: 1, cannotJudge: false },
  } as const;
  expect((await mentor?.api.card.submit.mutate({ id, entries: [late] }))?.[0]).toMatchObject({ status: 'late' });
  expect((await owner.api.card.mine.query({ id })).answers).toEqual([]);
  expect((await mentor?.api.card.mine.query({ id }))?.answers).toHaveLength(1);
});

it('BL6: while the second round is open the board shows the first, whatever is scored, nothing is decided or looked at, and a note is its author’s alone', async () => {
  await using server = await startTestServer();
  const { id, owner, seats, cells, fern, moss, score, view } = await revealed(server);
  const before = await owner.api.board.get.query({ id });
  await owner.api.evaluation.openSecondRound.mutate({ id, cells });
  await score(seats['mentor'], fern.id, 1);
  expect(await owner.api.board.get.query({ id })).toEqual(before);
  const slotId = view.slots[0]?.id ?? '';
  const pairs = [{ firstPuppyId: fern.id, secondPuppyId: moss.id }];
  await expect(
    owner.api.decision.make.mutate({
      id,
      slotId,
      puppyId: fern.id,
      unexamined: [...checkKeys],
      reason: '',
      preference: false,
    }),
  ).rejects.toMatchObject(code('still-open'));
  await expect(owner.api.look.open.mutate({ id, slotId, medium: 'table', pairs })).rejects.toMatchObject(
    code('still-open'),
  );
  const note = {
    id,
    noteId: systemRandom.id(),
    slotId: null,
    puppyId: fern.id,
    otherPuppyId: moss.id,
    criterion: null,
    text: 'the rear',
  };
  await owner.api.board.addNote.mutate(note);
  expect((await owner.api.board.notes.query({ id })).map(({ text, held }) => [text, held])).toEqual([
    ['the rear', true],
  ]);
  expect(await seats['mentor']?.api.board.notes.query({ id })).toEqual([]);
});

it('BL6, BL7: its reveal puts second scores in the place of the first in those cells, for the seats that gave one', async () => {
  await using server = await startTestServer();
  const { id, owner, cells, fern, criterion, all, score } = await revealed(server);
  const dotsOf = (board: Awaited<ReturnType<typeof owner.api.board.get.query>>) =>
    board.criteria.find((one) => one.criterion === criterion.key)?.dots ?? [];
  const before = dotsOf(await owner.api.board.get.query({ id }));
  await owner.api.evaluation.openSecondRound.mutate({ id, cells });
  const [first, second] = all;
  await score(first, fern.id, 7);
  await score(second, fern.id, 6);
  for (const client of [...all.slice(1), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  const after = dotsOf(await owner.api.board.get.query({ id }));
  const seatOf = async (client: TestClient | undefined) =>
    (await client?.api.evaluation.get.query({ id }))?.viewer.seatId ?? '';
  const given = (dots: typeof after, seat: string) =>
    dots.find((dot) => dot.puppy === fern.id && dot.seat === seat)?.value;
  expect([given(after, await seatOf(first)), given(after, await seatOf(second))]).toEqual([7, 6]);
  const silent = await seatOf(all[2]);
  expect(given(after, silent)).toBe(given(before, silent));
  const { second: shift, secondRoundCells, blindTo } = await owner.api.board.get.query({ id });
  expect(shift?.cells.map(({ seats, kind }) => [seats, kind])).toEqual(
    expect.arrayContaining([
      [2, expect.any(String)],
      [0, 'tooFew'],
    ]),
  );
  expect([secondRoundCells, blindTo.join(' ').includes('agreement after discussion')]).toEqual([[], true]);
  expect(after).toHaveLength(before.length);
  expect(getEvaluationFacts(server.runtime.db, id).earlierRounds.map((round) => round.occasion)).toEqual(['first']);
  await expect(owner.api.evaluation.openSecondRound.mutate({ id, cells })).rejects.toMatchObject(code('wrong-phase'));
});

it('BL5: what a result was blind to is said round by round: who had not locked the first, and what was known by the second', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 3 });
  await owner.api.evaluation.openRound.mutate({ id });
  for (const client of [owner, ...Object.values(seats)]) await scoreCard(client, id, steadyCell);
  for (const label of ['photographer', 'co-owner']) await lockCard(seats[label], id);
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  const once = (await owner.api.board.get.query({ id })).blindTo.join(' ');
  expect(once).toContain(
    'Scoring seats other than the owner’s were not shown parents, weights of the puppies, or how criteria weigh.',
  );
  expect(once).toContain('Not locked when the round closed: mentor.');
  const view = await owner.api.evaluation.get.query({ id });
  // What the second round's seats are shown before they score.
  expect((await seats['mentor']?.api.evaluation.get.query({ id }))?.purposes).toEqual(view.purposes);
  const criterion = view.sheet.criteria.find((one) => !one.handsOnly && !one.twoSided)?.key ?? '';
  await owner.api.evaluation.openSecondRound.mutate({ id, cells: [{ puppyId: view.puppies[0]?.id ?? '', criterion }] });
  const late = {
    id: systemRandom.id(),
    subject: view.round?.showings[0]?.id ?? '',
    counter: 99,
    madeAt: 1,
    body: { kind: 'manner', manner: 'relaxed' },
  } as const;
  await seats['mentor']?.api.card.submit.mutate({ id, entries: [late] });
  for (const label of ['mentor', 'co-owner']) await lockCard(seats[label], id);
  await lockCard(owner, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  const board = await owner.api.board.get.query({ id });
  const twice = board.blindTo.join(' ');
  expect(twice).toContain(
    'In the second they were not shown parents or weights of the puppies; how criteria weigh, and the scores and the result of the first round, they had been shown by then.',
  );
  expect(twice).not.toContain('were not shown parents, weights of the puppies, or how criteria weigh. Seats');
  expect(twice).toContain('Not locked when the first round closed: mentor.');
  expect(twice).toContain('Not locked when the second round closed: photographer.');
  const seatId = (label: string) => view.seats.find((seat) => seat.label === label)?.id ?? '';
  expect(board.notLocked.toSorted()).toEqual([seatId('mentor'), seatId('photographer')].toSorted());
  expect(board.lateEntries).toBe(1);
});
