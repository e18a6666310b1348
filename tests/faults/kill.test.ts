import { mkdtempSync, rmSync } from 'node:fs';
import { createConnection } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { io } from 'socket.io-client';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { checkFile } from '#db/checkFile';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { bundleFaultPrograms, type FaultPrograms } from '#tests/support/bundleFaultPrograms';
import { fullSize, hour, seedOfRun } from '#tests/support/faultSize';
import { holdTime, timed } from '#tests/support/latency';
import { makeDayFile, type Day } from '#tests/support/makeDay';
import { startFaultServer, type FaultServer } from '#tests/support/startFaultServer';
import { scoreSender } from '#tests/support/submitScores';

const kills = fullSize ? 100 : 5;
const acknowledgements = fullSize ? 5000 : 250;
/** For a machine that has other work: what must be quick is measured and compared, not cut off. */
const patience = 900_000;
/** So many in each round before the kill falls due. */
const perRound = Math.ceil(acknowledgements / kills);

let programs: FaultPrograms;
let folder = '';
let file = '';
let day: Day;

beforeAll(async () => {
  programs = await bundleFaultPrograms();
}, patience);

afterAll(() => programs.remove());

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-kill-'));
  file = join(folder, 'evenstack.db');
  day = makeDayFile(file, { seats: 3, devicesPerSeat: 2 }, Date.now());
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

const start = (port = 0): Promise<FaultServer> => startFaultServer({ program: programs.server, folder, port });

/** Every device scores as fast as it is answered, until the server is gone; answers what was acknowledged. */
function load(server: FaultServer): { readonly acknowledged: Map<string, string>; readonly done: Promise<void> } {
  const acknowledged = new Map<string, string>();
  const one = async (sender: ReturnType<typeof scoreSender>) => {
    for (;;) {
      const sent = await sender.send().catch(() => null);
      if (!sent) return;
      acknowledged.set(sent.entry.id, sent.outcome.status);
    }
  };
  const done = Promise.all(day.devices.map((device) => one(scoreSender(server.url, day, device)))).then(
    () => undefined,
  );
  return { acknowledged, done };
}

/** What the file holds once nobody has it open; a check of the whole file with it. */
function kept(): ReadonlyMap<string, string> {
  const client = new Sqlite(file);
  const rows = client.prepare<[], { id: string; status: string }>('SELECT id, status FROM entry').all();
  client.close();
  checkFile(file, 'full');
  return new Map(rows.map(({ id, status }) => [id, status]));
}

const lostOf = (acknowledged: ReadonlyMap<string, string>) => {
  const there = kept();
  return [...acknowledged].filter(([id, status]) => there.get(id) !== status);
};

it(`SC1: of ${acknowledgements} acknowledgements and more, ${kills} times kill -9 under load loses none`, {
  timeout: hour,
}, async () => {
  const seed = seedOfRun(0);
  const random = createSeededRandom(seed);
  const all = new Map<string, string>();
  const ready: number[] = [];
  for (let round = 0; round < kills; round += 1) {
    const server = await start();
    ready.push(server.readyAfter);
    const { acknowledged, done } = load(server);
    await expect.poll(() => acknowledged.size, { timeout: patience, interval: 3 }).toBeGreaterThanOrEqual(perRound);
    await new Promise((resolve) => setTimeout(resolve, random.below(30)));
    await server.end('SIGKILL');
    await done;
    for (const [id, status] of acknowledged) all.set(id, status);
    expect({ seed, round, lost: lostOf(acknowledged) }).toEqual({ seed, round, lost: [] });
  }
  expect(lostOf(all)).toEqual([]);
  expect(all.size).toBeGreaterThanOrEqual(acknowledgements);
  console.log(
    `kill -9: seed ${seed}, ${kills} kills, ${all.size} acknowledged, 0 lost; ready after at most ${Math.round(Math.max(...ready))} ms`,
  );
  holdTime('ready after kill -9', Math.max(...ready), 5000);
});

it('LV1: after kill -9 and a new start every client is back', { timeout: patience }, async () => {
  const first = await start();
  const sockets = day.devices.map((device) =>
    io(first.url, {
      transports: ['websocket', 'polling'],
      reconnectionDelayMax: 2000,
      extraHeaders: { cookie: `evenstack=${device.secret}`, origin: first.url },
    }),
  );
  await expect
    .poll(() => sockets.filter((socket) => socket.connected).length, { timeout: patience })
    .toBe(sockets.length);
  await first.end('SIGKILL');
  await expect.poll(() => sockets.filter((socket) => socket.connected).length).toBe(0);
  let second = first;
  const back = await timed(async () => {
    second = await start(first.port);
    await expect
      .poll(() => sockets.filter((socket) => socket.connected).length, { timeout: patience })
      .toBe(sockets.length);
  });
  console.log(
    `restart after kill -9: ready after ${Math.round(second.readyAfter)} ms, ${sockets.length} clients back after ${Math.round(back)} ms`,
  );
  for (const socket of sockets) socket.close();
  await second.end('SIGTERM');
  holdTime('ready after kill -9', second.readyAfter, 5000);
  holdTime('every client back', back, 10_000);
});

it('SC1: a stop under load answers what is under way, closes the file whole, and ends with 0', {
  timeout: patience,
}, async () => {
  const server = await start();
  const { acknowledged, done } = load(server);
  await expect.poll(() => acknowledged.size, { timeout: patience, interval: 3 }).toBeGreaterThan(50);
  const took = await timed(async () => expect(await server.end('SIGTERM')).toBe(0));
  holdTime('a stop under load', took, 10_000);
  await done;
  expect(lostOf(acknowledged)).toEqual([]);
  expect(server.logged).toEqual([]);
  await expect(
    scoreSender(server.url, day, day.devices[0] ?? { id: '', seatId: '', secret: '' }).send(),
  ).rejects.toThrow();
});

it('SC1: a score whose sending a stop interrupts is still taken and answered', { timeout: patience }, async () => {
  const server = await start();
  const criterion = day.facts.sheet.criteria.find((one) => !one.twoSided)?.key;
  const entry = {
    id: 'ab'.repeat(16),
    subject: day.facts.round?.showings[0]?.id,
    counter: 1,
    madeAt: 1,
    body: { kind: 'score', criterion, cannotJudge: false, value: 5 },
  };
  const body = JSON.stringify({ id: day.facts.id, entries: [entry] });
  const socket = createConnection(server.port, '127.0.0.1');
  let answer = '';
  socket.setEncoding('utf8').on('data', (text: string) => (answer += text));
  const closed = new Promise((resolve) => socket.once('close', resolve));
  const head = [
    'POST /api/trpc/card.submit HTTP/1.1',
    `Host: 127.0.0.1:${server.port}`,
    `Origin: ${server.url}`,
    `Cookie: evenstack=${day.devices[0]?.secret}`,
  ];
  socket.write(
    [...head, 'Content-Type: application/json', `Content-Length: ${body.length}`, '', body.slice(0, 40)].join('\r\n'),
  );
  await new Promise((resolve) => setTimeout(resolve, 200));
  const ended = server.end('SIGTERM');
  await new Promise((resolve) => setTimeout(resolve, 200));
  socket.write(body.slice(40));
  await closed;
  expect(await ended).toBe(0);
  expect(answer).toMatch(/^HTTP\/1\.1 200 [\s\S]*"applied"/);
  expect(kept().get(entry.id)).toBe('applied');
});

it('SC3: a second server on the same data does not start', { timeout: patience }, async () => {
  const server = await start();
  await expect(start()).rejects.toThrow(/Another Evenstack server has .* open/);
  await server.end('SIGTERM');
});
