import { beforeAll, expect, it } from 'vitest';
import type { DemoRole } from '#lib/contract/demoView';
import type { Entry, EntryBody } from '#lib/contract/entry';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { shortSheet } from '#lib/sheet/shippedSheets';
import { inventCards } from '#server/demo/inventCards';
import { readScenario } from '#server/demo/scenario';
import { systemRandom } from '#server/random';
import { lockCard } from '#tests/support/lockCard';
import type { TestClient } from '#tests/support/testClient';
import { quickPace, startDemoServer, stillPace, type TestDemo } from './startDemoServer';

const scenario = readScenario('fixtures/demo/scenario.json');

beforeAll(async () => {
  // Makes the template that the tests below share.
  await using demo = await startDemoServer();
  await visit(demo, 'breeder');
});

async function visit(demo: TestDemo, role: DemoRole) {
  const visitor = demo.stranger();
  await visitor.api.demo.enter.mutate({ role });
  const { openId, sealedId } = await visitor.api.demo.get.query();
  return { visitor, openId, sealedId };
}

/** Waits until it holds; the test's own time-out ends a wait in vain. */
async function until(what: () => Promise<boolean> | boolean): Promise<void> {
  while (!(await what())) await new Promise((resolve) => setTimeout(resolve, 20));
}

/** The casts move when the test says so, and not otherwise. */
const beatenPace = { ...quickPace, beatMilliseconds: stillPace.beatMilliseconds };

async function say(client: TestClient, view: EvaluationView, body: EntryBody): Promise<void> {
  const entry: Entry = {
    id: systemRandom.id(),
    subject: view.round?.showings[0]?.id ?? '',
    counter: 1,
    madeAt: 1,
    body,
  };
  expect((await client.api.card.submit.mutate({ id: view.id, entries: [entry] }))[0]?.status).toBe('applied');
}

/** What only a reader of the scripted seats' cards could know: every note and reason they give. */
function wordsOf(role: DemoRole): readonly string[] {
  const { notes, choices } = scenario.open;
  return [
    ...notes.filter((note) => note.role !== role).map((note) => note.text),
    ...choices.filter((choice) => choice.role !== role).map((choice) => choice.reason),
  ];
}

it('DE1: the invented cards are the same every time, on the scale, and never say what a seat cannot know', () => {
  const asked = { scenario, day: scenario.open, sheet: shortSheet };
  const cards = inventCards(asked);
  expect([...inventCards(asked)].map(([role, byPuppy]) => [role, [...byPuppy]])).toEqual(
    [...cards].map(([role, byPuppy]) => [role, [...byPuppy]]),
  );
  for (const [role, byPuppy] of cards) {
    expect(byPuppy.size).toBe(9);
    const seat = scenario.seats.find((one) => one.role === role);
    for (const body of [...byPuppy.values()].flat()) {
      if (body.kind !== 'score') continue;
      const criterion = shortSheet.criteria.find((one) => one.key === body.criterion);
      expect(body.cannotJudge).toBe(seat?.cannotJudge.includes(body.criterion));
      expect(
        body.cannotJudge
          ? body.value === null
          : body.value !== null && Math.abs(body.value) <= (criterion?.twoSided ? 3 : 7),
      ).toBe(true);
      if (criterion?.handsOnly) expect(seat?.kind).toBe('hands');
    }
  }
});

it('BL1, DE1: while the scripted seats score, a visitor sees nothing of what they say', async () => {
  await using demo = await startDemoServer({ pace: { ...quickPace, patienceBeats: 1_000_000 } });
  const { visitor, openId } = await visit(demo, 'breeder');
  const before = await visitor.api.evaluation.get.query({ id: openId });
  const last = before.round?.showings.at(-1)?.id ?? '';
  await visitor.api.evaluation.moveTable.mutate({ id: openId, showingId: last });
  const states = async () => (await visitor.api.evaluation.get.query({ id: openId })).seats.map((seat) => seat.state);
  await until(async () => (await states()).filter((state) => state === 'locked').length === 3);
  const after = await visitor.api.evaluation.get.query({ id: openId });
  const bare = ({ seats: _, round: __, versions: ___, head: ____, ...rest }: EvaluationView) => rest;
  expect(bare(after)).toEqual(bare(before));
  expect((await visitor.api.card.mine.query({ id: openId })).answers).toEqual([]);
  await expect(visitor.api.board.get.query({ id: openId })).rejects.toThrow('wrong-phase');
  await expect(visitor.api.board.coefficients.query({ id: openId })).rejects.toThrow('wrong-phase');
  await expect(visitor.api.decision.get.query({ id: openId })).rejects.toThrow('wrong-phase');
  await expect(visitor.api.evaluation.revealRound.mutate({ id: openId })).rejects.toThrow('still-open');
  await visitor.api.record.list.query({ id: openId });
  await visitor.api.look.list.query({ id: openId });
  await visitor.api.board.notes.query({ id: openId });
  const received = visitor.received.join('\n');
  for (const words of wordsOf('breeder')) expect(received).not.toContain(words);
  expect(demo.logged).toEqual([]);
});

it.each<DemoRole>(['breeder', 'photographer'])(
  'DE1, BL7: one click brings the %s’s evaluation to its reveal, with every card as its seat left it',
  async (role) => {
    await using demo = await startDemoServer();
    const { visitor, openId } = await visit(demo, role);
    const view = await visitor.api.evaluation.get.query({ id: openId });
    const criterion = shortSheet.criteria.find((one) => !one.twoSided)?.key ?? '';
    await say(visitor, view, { kind: 'score', criterion, value: 2, cannotJudge: false });
    await visitor.api.demo.playToReveal.mutate();
    const after = await visitor.api.evaluation.get.query({ id: openId });
    expect(after.round?.state).toBe('revealed');
    expect(after.seats.map((seat) => seat.state)).toEqual(['locked', 'locked', 'locked', 'locked']);
    expect((await visitor.api.demo.get.query()).revealed).toBe(true);
    const board = await visitor.api.board.get.query({ id: openId });
    expect(board.notLocked).toEqual([]);
    expect(board.lateEntries).toBe(0);
    const cards = inventCards({ scenario, day: scenario.open, sheet: shortSheet });
    const own = view.viewer.seatId;
    const mine = board.criteria.flatMap((one) =>
      one.dots.filter((dot) => dot.seat === own).map((dot) => [one.criterion, dot.puppy, dot.value]),
    );
    expect(mine).toEqual([[criterion, view.round?.showings[0]?.puppyId, 2]]);
    for (const seat of after.seats.filter((one) => one.id !== own)) {
      const scripted = scenario.seats.find((one) => seat.label === `${one.role} (scripted)`)?.role;
      if (!scripted) throw new Error(`a seat is not marked as scripted: ${seat.label}`);
      const given = board.criteria.flatMap((one) =>
        one.dots.filter((dot) => dot.seat === seat.id).map((dot) => `${dot.puppy} ${one.criterion} ${dot.value}`),
      );
      const table = view.puppies.flatMap((puppy) =>
        (cards.get(scripted)?.get(puppy.name) ?? []).flatMap((body) =>
          body.kind === 'score' ? [`${puppy.id} ${body.criterion} ${body.value}`] : [],
        ),
      );
      expect(given.toSorted()).toEqual(table.toSorted());
    }
    expect(board.notes.map((note) => note.text).toSorted()).toEqual(
      scenario.open.notes
        .filter((note) => note.role !== role)
        .map((note) => note.text)
        .toSorted(),
    );
    await expect(visitor.api.demo.playToReveal.mutate()).rejects.toThrow('wrong-phase');
    expect(demo.logged).toEqual([]);
  },
);

it('DE1: two clicks at once reveal once', async () => {
  await using demo = await startDemoServer();
  const { visitor, openId } = await visit(demo, 'mentor');
  const clicks = await Promise.allSettled([
    visitor.api.demo.playToReveal.mutate(),
    visitor.api.demo.playToReveal.mutate(),
  ]);
  expect(clicks.map((click) => click.status)).toContain('fulfilled');
  const record = await visitor.api.record.list.query({ id: openId });
  expect(record.filter((line) => line.kind === 'round-revealed')).toHaveLength(1);
});

it('DE1: the scripted owner leads the table and, once every card is locked, reveals', async () => {
  await using demo = await startDemoServer({ pace: quickPace });
  const { visitor, openId } = await visit(demo, 'mentor');
  const view = () => visitor.api.evaluation.get.query({ id: openId });
  const { round } = await view();
  await until(async () => (await view()).round?.tableShowingId === round?.showings.at(-1)?.id);
  await until(async () => (await view()).seats.filter((seat) => seat.state === 'locked').length === 3);
  expect((await view()).round?.state).toBe('open');
  await lockCard(visitor, openId);
  await until(async () => (await view()).round?.state === 'revealed');
  expect(demo.logged).toEqual([]);
});

it('DE1: the scripted seats keep to the puppies shown so far', async () => {
  await using demo = await startDemoServer({ pace: beatenPace });
  const { visitor, openId } = await visit(demo, 'breeder');
  // Beats enough for all nine puppies: in another copy, whose table is at the last one, as many bring three cards to their lock.
  const { visitor: ahead, openId: aheadId } = await visit(demo, 'breeder');
  const showings = (await ahead.api.evaluation.get.query({ id: aheadId })).round?.showings ?? [];
  await ahead.api.evaluation.moveTable.mutate({ id: aheadId, showingId: showings.at(-1)?.id ?? '' });
  await until(async () => {
    await demo.demo.beat();
    return (
      (await ahead.api.evaluation.get.query({ id: aheadId })).seats.filter((seat) => seat.state === 'locked').length ===
      3
    );
  });
  expect((await visitor.api.evaluation.get.query({ id: openId })).seats.map((seat) => seat.state)).toEqual([
    'joined',
    'joined',
    'joined',
    'joined',
  ]);
  await lockCard(visitor, openId);
  await visitor.api.evaluation.closeRound.mutate({ id: openId });
  await visitor.api.demo.playToReveal.mutate();
  const view = await visitor.api.evaluation.get.query({ id: openId });
  const board = await visitor.api.board.get.query({ id: openId });
  expect(new Set(board.criteria.flatMap((one) => one.dots.map((dot) => dot.puppy)))).toEqual(
    new Set([view.round?.showings[0]?.puppyId]),
  );
  expect(board.notLocked).toHaveLength(3);
  expect(demo.logged).toEqual([]);
});

it('BL8, DE1: the scripted seats answer a second look that the visitor opens', async () => {
  await using demo = await startDemoServer({ pace: quickPace });
  const { visitor, openId } = await visit(demo, 'breeder');
  await visitor.api.demo.playToReveal.mutate();
  const { puppies, slots } = await visitor.api.evaluation.get.query({ id: openId });
  const [first, second] = ['Fern', 'Teasel'].map((name) => puppies.find((puppy) => puppy.name === name)?.id ?? '');
  const {
    lookIds: [lookId = ''],
  } = await visitor.api.look.open.mutate({
    id: openId,
    slotId: slots[0]?.id ?? '',
    medium: 'table',
    pairs: [{ firstPuppyId: first ?? '', secondPuppyId: second ?? '' }],
  });
  await visitor.api.look.answer.mutate({
    id: openId,
    answer: { id: systemRandom.id(), lookId, choice: 'tie', criterion: null, madeAt: 1 },
  });
  await until(async () => (await visitor.api.look.list.query({ id: openId }))[0]?.state === 'revealed');
  const [look] = await visitor.api.look.list.query({ id: openId });
  // Fern's true merit is far above Teasel's, on every scripted seat's cards.
  expect(look?.answers?.map((answer) => answer.choice).toSorted()).toEqual(['first', 'first', 'tie']);
  expect(demo.logged).toEqual([]);
});

it('DE1: the cast rests once its visitor has been away for long', async () => {
  await using demo = await startDemoServer({ pace: beatenPace });
  const away = await visit(demo, 'mentor');
  const place = async ({ visitor, openId }: typeof away) => {
    const { round } = await visitor.api.evaluation.get.query({ id: openId });
    return round?.showings.findIndex((showing) => showing.id === round.tableShowingId);
  };
  const goTo = (one: typeof away, wanted: number) =>
    until(async () => {
      await demo.demo.beat();
      return (await place(one)) === wanted;
    });
  await goTo(away, 1);
  demo.pass(11 * 60_000);
  // Meanwhile the table of a copy that is watched goes to its end.
  const watching = await visit(demo, 'mentor');
  await goTo(watching, 8);
  expect(await place(away)).toBe(1);
  // She has been heard of again: her cast goes on.
  await goTo(away, 8);
});

it('DE1: a restarted demo goes on where its scripted seats stopped', async () => {
  const first = await startDemoServer({ pace: beatenPace });
  const { visitor, openId } = await visit(first, 'breeder');
  for (let move = 0; move < 5; move += 1) await first.demo.beat();
  const cookie = visitor.cookie();
  await first.stop();
  await using second = await startDemoServer({ folder: first.folder, pace: stillPace });
  const headers = { origin: second.url, cookie, 'content-type': 'application/json' };
  const response = await fetch(`${second.url}/api/trpc/demo.playToReveal?batch=1`, {
    method: 'POST',
    headers,
    body: '{}',
  });
  expect(response.status).toBe(200);
  const input = encodeURIComponent(JSON.stringify({ id: openId }));
  const board = await (await fetch(`${second.url}/api/trpc/board.get?input=${input}`, { headers })).text();
  expect(board).toContain('"notLocked":[]');
  expect(board).toContain('"lateEntries":0');
  expect(second.logged).toEqual([]);
});
