import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { open } from '#db/open';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { checkKeys } from '#lib/sheet/check';
import { callProcedure } from '#tests/support/callProcedure';
import { joinDirectly } from '#tests/support/joinDirectly';
import { listProcedures } from '#tests/support/listProcedures';
import { dayRuntime, makeDay } from '#tests/support/makeDay';
import { lockCard } from '#tests/support/lockCard';
import { addPaperSeat, filledSheet, paperSeatOf } from '#tests/support/paperSeat';
import { playWholeDay } from '#tests/support/playWholeDay';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { soundInputs } from '#tests/support/soundInputs';
import { bringTo } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';
import { withoutTrace } from '#tests/support/withoutTrace';

/**
 * A rule decided on facts that were read before the transaction can be overtaken by another call's write, and reading them is what a
 * change costs most. So who asks, whether it may and what it writes are decided on one reading, inside the transaction.
 */
const readsMore: Readonly<Record<string, { readonly reads: number; readonly why: string }>> = {
  'decision.make': {
    reads: 2,
    why: 'what the panel says is computed in between, for seconds, and the pick is decided on what holds after',
  },
  'POST /api/photo': { reads: 2, why: 'an upload is refused before its bytes come, and they come for minutes' },
};

/** Only in a copy of the demo, whose script plays a whole day in one call. */
const elsewhere = ['demo.enter', 'demo.playToReveal', 'demo.sitIn'];

/** Every statement that SQLite runs in this process, whichever connection it is of. */
const run: string[] = [];
const prototype = Object.getPrototypeOf(new Sqlite(':memory:').prepare('SELECT 1')) as Record<
  'get' | 'all',
  (this: Sqlite.Statement, ...given: unknown[]) => unknown
>;
const { get, all } = prototype;
const { fetch: send } = globalThis;
const changes = listProcedures().filter((one) => one.kind === 'mutation');
const most = new Map<string, number>();
let factsQuestion = '';

const factsRead = () => run.filter((statement) => statement === factsQuestion).length;

/** Of what one request asked for: a procedure that is called alone, or the door for pictures. */
function asked({ pathname }: URL, method: string | undefined): string | null {
  if (method !== 'POST' || pathname.includes(',')) return null;
  return pathname.startsWith('/api/photo/') ? 'POST /api/photo' : pathname.slice('/api/trpc/'.length);
}

beforeAll(() => {
  prototype.get = function (...given) {
    run.push(this.source);
    return get.apply(this, given);
  };
  prototype.all = function (...given) {
    run.push(this.source);
    return all.apply(this, given);
  };
  const runtime = dayRuntime(open(':memory:'));
  const { facts } = makeDay(runtime);
  run.length = 0;
  getEvaluationFacts(runtime.db, facts.id);
  factsQuestion = run[0] ?? '';
  runtime.db.$client.close();
  // Calls come one after the other, so what is read until the answer is there was read for it.
  globalThis.fetch = async (input, init) => {
    run.length = 0;
    const answer = await send(input, init);
    const path = asked(new URL(input instanceof Request ? input.url : input.toString()), init?.method);
    if (path !== null && answer.status === 200) most.set(path, Math.max(factsRead(), most.get(path) ?? 0));
    return answer;
  };
});

afterAll(() => {
  Object.assign(prototype, { get, all });
  globalThis.fetch = send;
});

it('SC1: the facts of an evaluation are told by a question of their own, once for each reading', () => {
  const runtime = dayRuntime(open(':memory:'));
  const { facts } = makeDay(runtime);
  run.length = 0;
  for (let n = 1; n <= 3; n += 1) {
    getEvaluationFacts(runtime.db, facts.id);
    expect(factsRead()).toBe(n);
  }
  runtime.db.$client.close();
});

it('SC1: a whole day is played', async () => {
  await using server = await startTestServer();
  await playWholeDay(server);
  expect(most.get('card.submit')).toBe(1);
});

it.each(['preparing', 'open', 'revealed'] as const)(
  'SC1: at stage %s whatever is granted to the owner, an evaluator or an organiser is called',
  async (stage) => {
    await using server = await startTestServer();
    const quillmarsh = await bringTo(server, stage);
    const { id, owner, seats } = quillmarsh;
    const secretary = joinDirectly(server, id, {
      label: 'secretary',
      kind: 'none',
      leads: false,
      picks: false,
      organises: true,
      interest: '',
    });
    const askers = [
      { client: owner, label: 'breeder' },
      ...Object.entries(seats).map(([label, client]) => ({ client, label })),
      { client: secretary, label: 'secretary' },
    ];
    const granted = new Set<string>();
    for (const asker of askers) {
      const inputs = await soundInputs(quillmarsh, asker);
      for (const procedure of changes.filter(({ path }) => !granted.has(path))) {
        const { status } = await withoutTrace(server, () =>
          callProcedure(asker.client, procedure, inputs[procedure.path] ?? (procedure.input ? { id } : undefined)),
        );
        if (status === 200) granted.add(procedure.path);
      }
    }
  },
);

it('SC1: what those inputs do not reach is called: links, codes, devices, marks taken back, the end of looks and a home’s note', async () => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, 'revealed');
  const { id, owner, seats } = quillmarsh;
  const mentor = seats['mentor'] ?? server.stranger();
  const tablet = server.stranger();
  await tablet.api.session.joinByCode.mutate({ code: (await mentor.api.session.furtherCode.mutate()).code });
  await mentor.api.session.answerDevice.mutate({
    requestId: (await mentor.api.session.devices.query()).asking[0]?.id ?? '',
    letIn: true,
  });
  await mentor.api.session.endDevice.mutate({
    deviceId: (await mentor.api.session.devices.query()).devices.find((one) => !one.here)?.id ?? '',
  });
  const passphrase = 'four or five plain words';
  await owner.api.owner.setPassphrase.mutate({ current: '', passphrase, endOthers: false });
  await server.stranger().api.session.signIn.mutate({ passphrase });
  const [first, second] = (await owner.api.evaluation.get.query({ id })).puppies;
  const inputs = await soundInputs(quillmarsh);
  const { pointerId } = inputs['photo.point'] as { readonly pointerId: string };
  await callProcedure(owner, { path: 'photo.point', kind: 'mutation' }, inputs['photo.point']);
  await owner.api.photo.unpoint.mutate({ id, pointerId });
  const { slots } = await owner.api.board.get.query({ id });
  const pairs = [{ firstPuppyId: first?.id ?? '', secondPuppyId: second?.id ?? '' }];
  const { id: batchId, lookIds } = await owner.api.look.open.mutate({
    id,
    slotId: slots[0]?.slotId ?? '',
    medium: 'table',
    pairs,
  });
  await owner.api.look.answer.mutate({
    id,
    answer: { id: 'a'.repeat(32), lookId: lookIds[0] ?? '', choice: 'tie', criterion: null, madeAt: 1 },
  });
  await owner.api.look.close.mutate({ id, batchId });
  for (const { slotId } of slots)
    await owner.api.decision.make.mutate({
      id,
      slotId,
      puppyId: null,
      unexamined: [...checkKeys],
      reason: 'nobody',
      preference: false,
    });
  await owner.api.decision.seal.mutate({ id });
  const { token } = await owner.api.home.link.mutate({
    id,
    puppyId: first?.id ?? '',
    along: { contact: '', photoId: null },
  });
  await server.stranger().api.home.read.mutate({ token });
  await owner.api.home.end.mutate({ id, puppyId: first?.id ?? '' });
});

it('SC1: a card is typed from paper, and locked', async () => {
  await using server = await startTestServer();
  const day = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
  const { id, owner } = day;
  const seatId = await addPaperSeat(day);
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await lockCard(owner, id);
  const bodies = await filledSheet(owner, id, { score: 4, word: '' });
  for (const { showingId } of (await paperSeatOf(owner, id, seatId)).sheets)
    await owner.api.paper.type.mutate({ id, seatId, showingId, bodies });
  await owner.api.paper.lock.mutate({ id, seatId, signedAt: '' });
});

it('SC1: every change was called and granted, and reads the facts of its evaluation at most once', () => {
  const paths = changes.map((one) => one.path);
  expect(paths.filter((path) => !most.has(path))).toEqual(elsewhere);
  const more = [...most].filter(([path, reads]) => (paths.includes(path) || path.startsWith('POST')) && reads > 1);
  expect(Object.fromEntries(more)).toEqual(
    Object.fromEntries(Object.entries(readsMore).map(([path, { reads }]) => [path, reads])),
  );
});
