import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { Outbox } from '#app/_data/outbox';
import { openOutboxStore } from '#app/_data/outboxStore';
import { after } from '#app/_data/timers';
import { standingLine } from '#app/score/linkWords';
import { backUp } from '#db/backUp';
import { ownAnswers, saysSomething } from '#lib/evaluation/ownAnswers';
import { waitingRows } from '#lib/evaluation/outboxState';
import { restoreCommand } from '#server/cli/restore';
import { systemRandom } from '#server/random';
import { bundleFaultPrograms, type FaultPrograms } from '#tests/support/bundleFaultPrograms';
import { lockCard } from '#tests/support/lockCard';
import { makeDayFile, type Day } from '#tests/support/makeDay';
import { startFaultServer, type FaultServer } from '#tests/support/startFaultServer';
import { testClient, type TestClient } from '#tests/support/testClient';

const patience = 120_000;
let programs: FaultPrograms;
let folder = '';
let day: Day;
let server: FaultServer;
let outboxes: Outbox[] = [];
/** Calls go out once this is open. */
let gate: Promise<void> = Promise.resolve();

beforeAll(async () => {
  programs = await bundleFaultPrograms();
}, patience);
afterAll(() => programs.remove());

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-again-'));
  day = makeDayFile(join(folder, 'evenstack.db'), { seats: 1, devicesPerSeat: 1, puppies: 3 }, Date.now());
  server = await startFaultServer({ program: programs.server, folder });
});
afterEach(async () => {
  for (const outbox of outboxes) outbox.leave();
  outboxes = [];
  await server.end('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

const backup = () => join(folder, 'earlier.db');
const [ownerAt, seatAt] = [0, 1];
const session = (at: number) => testClient(server.url, `evenstack=${day.devices[at]?.secret ?? ''}`);

/** The server stops, the backup takes the place of its data by the command that a person would type, and it starts again. */
async function restored({ without = false } = {}): Promise<void> {
  await server.end('SIGTERM');
  if (without) for (const part of ['', '-wal', '-shm']) rmSync(join(folder, `evenstack.db${part}`), { force: true });
  vi.stubEnv('EVENSTACK_DATA', folder);
  const said: string[] = [];
  expect([
    await restoreCommand([backup()], { answer: () => undefined, complain: (line) => said.push(line) }),
    said,
  ]).toEqual([0, []]);
  vi.unstubAllEnvs();
  server = await startFaultServer({ program: programs.server, folder });
}

type Device = {
  readonly outbox: Outbox;
  say(puppy: number, criterion: number): Promise<void>;
  /** As a page that has its link back: asks, and asks again where the outbox wants to know. */
  returns(): Promise<void>;
  words(): Promise<string>;
};

/** A page of one seat: the real outbox on a database of the browser's, its calls over real HTTP to wherever the server is now. */
async function openPage(database: string, client: () => TestClient): Promise<Device> {
  const { id: evaluationId, sheet } = day.facts;
  const round = (await client().api.evaluation.get.query({ id: evaluationId })).round;
  if (!round) throw new Error('no round');
  const seatId = day.devices[seatAt]?.seatId ?? '';
  const read = async () => {
    const view = await client().api.evaluation.get.query({ id: evaluationId });
    const mine = await client().api.card.mine.query({ id: evaluationId });
    const state = view.round?.state;
    const shut = state === 'closed' || view.seats.find((seat) => seat.id === seatId)?.state === 'locked';
    return {
      roundId: round.id,
      answers: mine.answers,
      at: Date.now(),
      round: state === 'revealed' ? 'revealed' : shut ? 'shut' : 'open',
      later: false,
    } as const;
  };
  let asked = Promise.resolve();
  const absorb = async () => outbox.absorb(await read());
  const outbox = new Outbox({
    evaluationId,
    seatId,
    store: openOutboxStore(database),
    now: () => Date.now(),
    after,
    spread: () => 0,
    freshId: systemRandom.id,
    send: (entries) => gate.then(() => client().api.card.submit.mutate({ id: evaluationId, entries: [...entries] })),
    alone: (work) => work(),
    tellOthers: () => undefined,
    onAnswered: () => undefined,
    onDoubt: () => {
      asked = asked.then(absorb);
    },
  });
  outboxes.push(outbox);
  outbox.start();
  await vi.waitFor(() => expect(outbox.getView().loaded).toBe(true));
  const criteria = sheet.criteria.filter((one) => !one.twoSided);
  return {
    outbox,
    say: (puppy, criterion) =>
      outbox.add({
        subject: round.showings[puppy]?.id ?? '',
        roundId: round.id,
        body: { kind: 'score', criterion: criteria[criterion]?.key ?? '', value: 4, cannotJudge: false },
      }),
    returns: async () => {
      await absorb();
      await asked;
    },
    words: async () => {
      const { answers, round: stage } = await read();
      const view = outbox.getView();
      const said = [...ownAnswers(answers, view.state, round.id).values()].filter((answer) =>
        saysSomething(answer.body),
      );
      const waiting = waitingRows(view.state);
      const again = waiting.filter((row) => row.again === true).length;
      const onServer = said.filter((answer) => answer.place === 'server').length;
      const link = { connected: true, lostAt: null, table: null };
      return standingLine(
        { view, onServer, waiting: waiting.length, again, doubted: 0, said: said.length, open: stage === 'open', link },
        'phone',
      ).words;
    },
  };
}

async function sayAll(device: Device, from: number, to: number): Promise<void> {
  for (let one = from; one < to; one += 1) await device.say(one % 3, Math.floor(one / 3));
}

const settled = (device: Device) =>
  vi.waitFor(() => expect(waitingRows(device.outbox.getView().state)).toEqual([]), { timeout: patience });
const answersOnServer = async () => (await session(seatAt).api.card.mine.query({ id: day.facts.id })).answers.length;
const recordLines = async () =>
  (await session(ownerAt).api.record.list.query({ id: day.facts.id })).map(({ kind, detail }) => `${kind}: ${detail}`);

/** Nine answers, of which the backup holds four. */
async function nineAnswers(): Promise<Device> {
  const device = await openPage('sent again', () => session(seatAt));
  await sayAll(device, 0, 4);
  await settled(device);
  await backUp(join(folder, 'evenstack.db'), backup());
  await sayAll(device, 4, 9);
  await settled(device);
  await device.returns();
  expect(await device.words()).toBe('all 9 on the server');
  return device;
}

it('SC6, LV2: what a restored server lacks and a device holds is sent again while the round is open, told, and counted in the record', {
  timeout: patience,
}, async () => {
  const device = await nineAnswers();
  await restored();
  expect(await answersOnServer()).toBe(4);
  let open: () => void = () => undefined;
  gate = new Promise((resolve) => (open = resolve));
  await device.returns();
  expect(await device.words()).toBe('4 of 9 on the server; 5 being sent again');
  open();
  await settled(device);
  await device.returns();
  expect([await answersOnServer(), await device.words()]).toEqual([9, 'all 9 on the server']);
  expect((await recordLines()).filter((line) => line.startsWith('entries-sent-again'))).toEqual([
    'entries-sent-again: 5',
  ]);
  expect(device.outbox.getView().state).toMatchObject({ rows: [], doubted: [] });
  expect(device.outbox.getView().state.held).toHaveLength(9);
});

it('SC6, BL7: restored without the file it replaces the round is closed: the device keeps back what could only be late, and sends it once the round is open again', {
  timeout: patience,
}, async () => {
  const device = await nineAnswers();
  await restored({ without: true });
  await device.returns();
  expect([await answersOnServer(), await device.words()]).toEqual([4, '4 of 9 on the server; 5 kept on this device']);
  await session(ownerAt).api.evaluation.reopenRound.mutate({ id: day.facts.id });
  await device.returns();
  await settled(device);
  expect(await answersOnServer()).toBe(9);
});

it('SC6, SC5: once the round is revealed what was lost is sent all the same, kept as late and told', {
  timeout: patience,
}, async () => {
  const device = await nineAnswers();
  await restored({ without: true });
  await device.returns();
  const owner = session(ownerAt);
  await owner.api.evaluation.reopenRound.mutate({ id: day.facts.id });
  await lockCard(owner, day.facts.id);
  await owner.api.evaluation.closeRound.mutate({ id: day.facts.id });
  await owner.api.evaluation.revealRound.mutate({ id: day.facts.id });
  await device.returns();
  await settled(device);
  expect([await answersOnServer(), await device.words()]).toEqual([4, '5 came too late to count']);
  expect(device.outbox.getView().state).toMatchObject({ held: [], doubted: [] });
});

it('SC6: a device that the restored file does not know keeps its entries until its seat is let in anew, then sends them', {
  timeout: patience,
}, async () => {
  const owner = session(ownerAt);
  const seatId = day.devices[seatAt]?.seatId ?? '';
  await owner.api.setup.endSeat.mutate({ id: day.facts.id, seatId });
  const { token } = await owner.api.setup.reissue.mutate({ id: day.facts.id, seatId });
  await backUp(join(folder, 'evenstack.db'), backup());
  let cookie = '';
  const join_ = async () => {
    const browser = testClient(server.url);
    await browser.api.session.join.mutate({ token });
    cookie = browser.cookie();
  };
  await join_();
  const client = () => testClient(server.url, cookie);
  const device = await openPage('unknown device', client);
  await sayAll(device, 0, 3);
  await settled(device);
  await device.returns();
  await restored();
  await device.say(0, 1);
  expect(device.outbox.getView().state).toMatchObject({
    refusal: 'not-signed-in',
    rows: [{ status: 'waiting', kept: 'disk' }],
  });
  device.outbox.stop();
  await join_();
  const anew = await openPage('unknown device', client);
  await anew.returns();
  await settled(anew);
  expect((await client().api.card.mine.query({ id: day.facts.id })).answers).toHaveLength(4);
});
