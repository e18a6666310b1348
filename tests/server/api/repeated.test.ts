import { createTRPCClient, TRPCClientError } from '@trpc/client';
import { observable } from '@trpc/server/observable';
import { expect, it } from 'vitest';
import { callHeader } from '#lib/contract/wire';
import { callIdLink } from '../../../app/_data/DataProvider';
import { checkKeys } from '#lib/sheet/check';
import type { AppRouter } from '#server/api/router';
import { howRepeated, type Manner } from '#tests/support/howRepeated';
import { listProcedures, type ListedProcedure } from '#tests/support/listProcedures';
import { lockCard } from '#tests/support/lockCard';
import { addPaperSeat, filledSheet, paperSeatOf } from '#tests/support/paperSeat';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { soundInputs } from '#tests/support/soundInputs';
import { bringTo, stages } from '#tests/support/stages';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';
import { withoutTrace } from '#tests/support/withoutTrace';
import { startDemoServer } from '../demo/startDemoServer';

const changes = listProcedures().filter((one) => one.kind === 'mutation');
type Told = { readonly status: number; readonly answer: unknown; readonly cookie: string };

/** One change as the app's pages send it, under the id it was given. */
async function send(
  caller: Pick<TestClient, 'url' | 'cookie'>,
  { path }: Pick<ListedProcedure, 'path'>,
  sent: { readonly input: unknown; readonly callId: string },
): Promise<Told> {
  const headers: Record<string, string> = {
    origin: caller.url,
    'content-type': 'application/json',
    [callHeader]: sent.callId,
  };
  if (caller.cookie() !== '') headers['cookie'] = caller.cookie();
  const response = await fetch(`${caller.url}/api/trpc/${path}?batch=1`, {
    method: 'POST',
    headers,
    body: JSON.stringify(sent.input === undefined ? {} : { 0: sent.input }),
  });
  return {
    status: response.status,
    answer: await response.json(),
    cookie: response.headers.getSetCookie()[0]?.split(';')[0] ?? '',
  };
}

/** How many rows each table has; of the record and of versions apart. */
function rowsOf({ runtime: { db } }: TestServer): {
  readonly things: Readonly<Record<string, unknown>>;
  readonly record: unknown;
} {
  const names = db.$client
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'")
    .pluck()
    .all()
    .map(String);
  const count = (name: string) => db.$client.prepare(`SELECT count(*) FROM "${name}"`).pluck().get();
  const { record, ...things } = Object.fromEntries(names.map((name) => [name, count(name)]));
  return { things, record };
}

let calls = 0;
const freshCall = () => (calls += 1).toString(16).padStart(32, '0');

type Twice = { readonly first: Told; readonly second: Told; readonly rows: readonly ReturnType<typeof rowsOf>[] };

async function twice(
  server: TestServer,
  caller: TestClient,
  call: { readonly procedure: ListedProcedure; readonly input: unknown },
): Promise<Twice | null> {
  const sent = { input: call.input, callId: freshCall() };
  const first = await send(caller, call.procedure, sent);
  if (first.status !== 200) return null;
  const before = rowsOf(server);
  const second = await send(caller, call.procedure, sent);
  return { first, second, rows: [before, rowsOf(server)] };
}

/** What is wrong about a repeat; null when it is as declared. */
function faultOf(manner: Manner | undefined, { first, second, rows: [before, after] }: Twice): string | null {
  if (manner === 'fresh') for (const one of [before, after]) if (one) Object.assign(one.things, { home_link: null });
  if (JSON.stringify(after?.things) !== JSON.stringify(before?.things))
    return `doubled: ${JSON.stringify(before?.things)} became ${JSON.stringify(after?.things)}`;
  const told = before?.record !== after?.record;
  const answered = JSON.stringify(first.answer) === JSON.stringify(second.answer);
  if (manner === 'once' || manner === 'reads')
    return answered && !told ? null : `another answer (${JSON.stringify(second.answer)}), or a line in the record`;
  if (manner === 'same') return second.status === 200 ? null : `refused: ${JSON.stringify(second.answer)}`;
  if (manner === 'fresh')
    return second.status === 200 && !answered ? null : `not fresh: ${JSON.stringify(second.answer)}`;
  return second.status >= 400 && second.status < 500 && !told ? null : `not refused: ${JSON.stringify(second.answer)}`;
}

/** Reached by no sound input of the table: tried in the tests that follow, entering the demo in tests/server/demo/visits.test.ts. */
const elsewhere = [
  'decision.answerHold',
  'decision.seal',
  'decision.takeBack',
  'demo.enter',
  'demo.playToReveal',
  'demo.sitIn',
  'evaluation.closeRound',
  'home.read',
  'look.answer',
  'look.close',
  'paper.lock',
  'paper.type',
  'photo.unpoint',
  'session.answerDevice',
  'session.endDevice',
  'session.join',
  'session.joinByCode',
  'session.signIn',
  'setup.invite',
];

it('SC2: every change says how it bears being sent twice', () => {
  expect(Object.keys(howRepeated).toSorted()).toEqual(changes.map((one) => one.path).toSorted());
});

const reached = new Set<string>();

it.each(stages)(
  'SC2: at stage %s every change, sent twice because its answer was lost, makes nothing twice',
  async (stage) => {
    const faults: string[] = [];
    await using server = await startTestServer();
    const quillmarsh = await bringTo(server, stage);
    const { id, owner, seats } = quillmarsh;
    const inputs = await soundInputs(quillmarsh);
    await owner.api.board.get.query({ id }).catch(() => undefined);
    for (const procedure of changes.filter(({ path }) => !reached.has(path) && path !== 'photo.remove')) {
      for (const caller of [owner, seats['mentor'], seats['co-owner'], seats['photographer']]) {
        const done =
          caller &&
          (await withoutTrace(server, () =>
            twice(server, caller, { procedure, input: inputs[procedure.path] ?? { id } }),
          ));
        const without =
          done ??
          (caller && procedure.input === null
            ? await withoutTrace(server, () => twice(server, caller, { procedure, input: undefined }))
            : null);
        if (!without) continue;
        reached.add(procedure.path);
        const fault = faultOf(howRepeated[procedure.path], without);
        if (fault !== null) faults.push(`${procedure.path} (${stage}): ${fault}`);
        break;
      }
    }
    // The file goes with the row, which no rollback brings back.
    const remove = changes.find(({ path }) => path === 'photo.remove');
    const gone =
      remove && !reached.has('photo.remove')
        ? await twice(server, owner, { procedure: remove, input: inputs['photo.remove'] })
        : null;
    if (gone) {
      reached.add('photo.remove');
      const fault = faultOf(howRepeated['photo.remove'], gone);
      if (fault !== null) faults.push(`photo.remove: ${fault}`);
    }
    expect(faults).toEqual([]);
  },
);

it('SC2: what no sound input of the table reaches is named, and nothing else', () => {
  expect(changes.map((one) => one.path).filter((path) => !reached.has(path))).toEqual(elsewhere);
});

/** A change that has to be granted, twice; what is wrong about it. */
async function repeat(
  server: TestServer,
  caller: TestClient,
  [path, input]: readonly [string, unknown],
): Promise<string | null> {
  const procedure = changes.find((one) => one.path === path);
  const done = procedure && (await twice(server, caller, { procedure, input }));
  return done ? faultOf(howRepeated[path], done) : `${path} was refused at once`;
}

it('SC2: a seat’s link, a close, a device let in and a device ended, sent twice', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id: seatId } = await owner.api.setup.saveSeat.mutate({
    id,
    seatId: null,
    seat: { label: 'late guest', kind: 'none', leads: false, picks: false, interest: '' },
  });
  expect(await repeat(server, owner, ['setup.invite', { id, seatId }])).toBeNull();
  const mentor = seats['mentor'] ?? server.stranger();
  const tablet = server.stranger();
  await tablet.api.session.joinByCode.mutate({ code: (await mentor.api.session.furtherCode.mutate()).code });
  const requestId = (await mentor.api.session.devices.query()).asking[0]?.id ?? '';
  expect(await repeat(server, mentor, ['session.answerDevice', { requestId, letIn: true }])).toBeNull();
  const deviceId = (await mentor.api.session.devices.query()).devices.find((one) => !one.here)?.id ?? '';
  expect(await repeat(server, mentor, ['session.endDevice', { deviceId }])).toBeNull();
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await lockCard(owner, id);
  expect(await repeat(server, owner, ['evaluation.closeRound', { id }])).toBeNull();
});

it('SC2: an answer to a second look, its end, a mark taken away and the seal, sent twice', async () => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, 'revealed');
  const { id, owner } = quillmarsh;
  const { slots } = await owner.api.board.get.query({ id });
  const [first, second] = (await owner.api.evaluation.get.query({ id })).puppies;
  const pairs = [{ firstPuppyId: first?.id ?? '', secondPuppyId: second?.id ?? '' }];
  const { id: batchId, lookIds } = await owner.api.look.open.mutate({
    id,
    slotId: slots[0]?.slotId ?? '',
    medium: 'table',
    pairs,
  });
  const answer = { id: freshCall(), lookId: lookIds[0] ?? '', choice: 'tie', criterion: null, madeAt: 1 };
  expect(await repeat(server, owner, ['look.answer', { id, answer }])).toBeNull();
  expect(await repeat(server, owner, ['look.close', { id, batchId }])).toBeNull();
  const inputs = await soundInputs(quillmarsh);
  const point = inputs['photo.point'] as { readonly pointerId: string };
  await send(owner, { path: 'photo.point' }, { input: point, callId: freshCall() });
  expect(await repeat(server, owner, ['photo.unpoint', { id, pointerId: point.pointerId }])).toBeNull();
  for (const { slotId, chances } of slots)
    await owner.api.decision.make.mutate({
      id,
      slotId,
      puppyId: chances[0]?.puppy ?? null,
      unexamined: [...checkKeys],
      reason: 'first of the panel',
      preference: false,
    });
  expect(await repeat(server, owner, ['decision.seal', { id }])).toBeNull();
});

it('SC2: a card typed from paper, and its lock, sent twice', async () => {
  await using server = await startTestServer();
  const day = await seedQuillmarsh(await server.owner(), { puppies: 1, panel: ['mentor'] });
  const { id, owner } = day;
  const seatId = await addPaperSeat(day);
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  await lockCard(owner, id);
  const { sheets } = await paperSeatOf(owner, id, seatId);
  const bodies = await filledSheet(owner, id, { score: 4, word: 'a word' });
  expect(
    await repeat(server, owner, ['paper.type', { id, seatId, showingId: sheets[0]?.showingId, bodies }]),
  ).toBeNull();
  expect((await owner.api.record.list.query({ id })).filter((line) => line.kind === 'card-typed')).toHaveLength(1);
  expect(await repeat(server, owner, ['paper.lock', { id, seatId, signedAt: '' }])).toBeNull();
});

it('SC2: a hold cleared and a home’s note read, sent twice', async () => {
  await using server = await startTestServer();
  const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const everyone = [...Object.values(seats), owner];
  for (const client of everyone) await scoreCard(client, id, steadyCell);
  const [showing] = (await owner.api.evaluation.get.query({ id })).round?.showings ?? [];
  const body = { kind: 'check', check: 'bite', answer: 'undershot', detail: '2 mm' } as const;
  await owner.api.card.submit.mutate({
    id,
    entries: [{ id: freshCall(), subject: showing?.id ?? '', counter: 2, madeAt: 1, body }],
  });
  for (const client of everyone) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
  const puppyId = showing?.puppyId ?? '';
  expect(
    await repeat(server, owner, [
      'decision.answerHold',
      { id, puppyId, check: 'bite', answer: 'no concern', by: 'a veterinary surgeon', choice: { kind: 'cleared' } },
    ]),
  ).toBeNull();
  for (const { slotId, chances } of (await owner.api.board.get.query({ id })).slots)
    await owner.api.decision.make.mutate({
      id,
      slotId,
      puppyId: chances[0]?.puppy ?? null,
      unexamined: [...checkKeys],
      reason: 'first of the panel',
      preference: false,
    });
  await owner.api.decision.seal.mutate({ id });
  const { token } = await owner.api.home.link.mutate({ id, puppyId, along: { contact: '', photoId: null } });
  expect(await repeat(server, server.stranger(), ['home.read', { token }])).toBeNull();
});

it('SC2, DE1: in the demo a change of seats, and the day played on to its reveal, sent twice', async () => {
  await using demo = await startDemoServer();
  const visitor = demo.stranger();
  await visitor.api.demo.enter.mutate({ role: 'breeder' });
  const { openId, sealedId } = await visitor.api.demo.get.query();
  const sit = { input: { id: sealedId }, callId: freshCall() };
  const [sat, satAgain] = [
    await send(visitor, { path: 'demo.sitIn' }, sit),
    await send(visitor, { path: 'demo.sitIn' }, sit),
  ];
  expect([sat.status, satAgain.status, satAgain.cookie]).toEqual([200, 200, sat.cookie]);
  const inSeat = { url: demo.url, cookie: () => sat.cookie || visitor.cookie() };
  const play = { input: undefined, callId: freshCall() };
  const played = await send(inSeat, { path: 'demo.playToReveal' }, play);
  const lines = async () => (await visitor.api.record.list.query({ id: openId })).length;
  const before = await lines();
  const again = await send(inSeat, { path: 'demo.playToReveal' }, play);
  expect([
    played.status,
    faultOf(howRepeated['demo.playToReveal'], { first: played, second: again, rows: [] }),
  ]).toEqual([200, null]);
  expect(await lines()).toBe(before);
});

it('SC2, BL9: a link and a code whose answer was lost let the same browser in by asking again, and nobody else', async () => {
  await using server = await startTestServer();
  const { id, owner, links } = await seedQuillmarsh(await server.owner(), { join: false });
  const token = new URL(links['mentor'] ?? '').hash.slice(1);
  const callId = freshCall();
  const join = { path: 'session.join' };
  const lost = await send(server.stranger(), join, { input: { token }, callId });
  const again = await send(server.stranger(), join, { input: { token }, callId });
  expect([lost.status, again.status, again.cookie]).toEqual([200, 200, lost.cookie]);
  // The cookie came, the answer did not.
  expect((await send({ url: server.url, cookie: () => lost.cookie }, join, { input: { token }, callId })).status).toBe(
    200,
  );
  expect((await send(server.stranger(), join, { input: { token }, callId: freshCall() })).status).toBe(401);
  const seatId =
    (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'photographer')?.id ?? '';
  const { code } = await owner.api.setup.spokenCode.mutate({ id, seatId });
  const byCode = { path: 'session.joinByCode' };
  const codeCall = freshCall();
  const first = await send(server.stranger(), byCode, { input: { code }, callId: codeCall });
  const second = await send(server.stranger(), byCode, { input: { code }, callId: codeCall });
  expect([first.status, second.status, second.cookie]).toEqual([200, 200, first.cookie]);
  expect((await send(server.stranger(), byCode, { input: { code }, callId: freshCall() })).status).toBe(401);
  expect(server.runtime.db.$client.prepare('SELECT count(*) FROM device').pluck().get()).toBe(3);
  expect((await owner.api.record.list.query({ id })).filter((line) => line.kind === 'seat-joined')).toHaveLength(2);
});

it('SC2, BL9: a further device that asks again waits as the one request it made', async () => {
  await using server = await startTestServer();
  const { seats } = await seedQuillmarsh(await server.owner());
  const { code } = (await seats['mentor']?.api.session.furtherCode.mutate()) ?? { code: '' };
  const sent = { input: { code }, callId: freshCall() };
  const [first, second] = [
    await send(server.stranger(), { path: 'session.joinByCode' }, sent),
    await send(server.stranger(), { path: 'session.joinByCode' }, sent),
  ];
  expect([first.status, second.status, second.cookie]).toEqual([200, 200, first.cookie]);
  expect((await seats['mentor']?.api.session.devices.query())?.asking).toHaveLength(1);
});

it('SC2: the owner who signs in twice by one press has one session, and a passphrase set twice is the one that was typed', async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const passphrase = 'four or five plain words';
  await owner.api.owner.setPassphrase.mutate({ current: '', passphrase, endOthers: false });
  const sent = { input: { passphrase }, callId: freshCall() };
  const [first, second] = [
    await send(server.stranger(), { path: 'session.signIn' }, sent),
    await send(server.stranger(), { path: 'session.signIn' }, sent),
  ];
  expect([first.status, second.status, second.cookie]).toEqual([200, 200, first.cookie]);
  expect((await owner.api.session.devices.query()).devices).toHaveLength(2);
  server.pass(3_600_000);
  const change = {
    input: { current: passphrase, passphrase: 'other plain words, five of them', endOthers: false },
    callId: freshCall(),
  };
  const [set, setAgain] = [
    await send(owner, { path: 'owner.setPassphrase' }, change),
    await send(owner, { path: 'owner.setPassphrase' }, change),
  ];
  expect([set.status, setAgain.status]).toEqual([200, 200]);
});

it('SC2: a pick taken back twice by one press takes back one', async () => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, 'revealed');
  const { id, owner } = quillmarsh;
  const [slot] = (await owner.api.board.get.query({ id })).slots;
  await owner.api.decision.make.mutate({
    id,
    slotId: slot?.slotId ?? '',
    puppyId: null,
    unexamined: [...checkKeys],
    reason: 'nobody',
    preference: false,
  });
  const sent = { input: { id }, callId: freshCall() };
  const statuses = [];
  for (let n = 0; n < 2; n += 1) statuses.push((await send(owner, { path: 'decision.takeBack' }, sent)).status);
  expect(statuses).toEqual([200, 200]);
  expect(
    (await owner.api.record.list.query({ id })).filter((line) => line.kind === 'decision-taken-back'),
  ).toHaveLength(1);
});

it('SC2: a page sends the same change under the same id until it is answered, and another under another', async () => {
  const ids: unknown[] = [];
  const answers: ('lost' | 'done' | 'refused')[] = ['lost', 'lost', 'refused', 'done', 'done'];
  let made = 0;
  const client = createTRPCClient<AppRouter>({
    links: [
      callIdLink(() => `id ${(made += 1)}`),
      () =>
        ({ op }) =>
          observable((observer) => {
            ids.push(op.context['callId']);
            const answer = answers.shift();
            if (answer === 'done') {
              observer.next({ result: { data: { done: true } } });
              observer.complete();
            } else
              observer.error(
                answer === 'lost'
                  ? TRPCClientError.from(new Error('lost'))
                  : TRPCClientError.from({
                      error: { message: 'no', code: -32003, data: { code: 'not-allowed' } },
                    } as never),
              );
          }),
    ],
  });
  const seal = (id: string) => client.decision.seal.mutate({ id }).catch(() => undefined);
  for (const id of ['a', 'a', 'a', 'a', 'b']) await seal(id);
  expect(ids).toEqual(['id 1', 'id 1', 'id 1', 'id 2', 'id 3']);
});
