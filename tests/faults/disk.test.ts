import { mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { checkFile } from '#db/checkFile';
import { codeOf } from '#tests/support/codeOf';
import { bundleFaultPrograms, type FaultPrograms } from '#tests/support/bundleFaultPrograms';
import { makeDayFile, type Day } from '#tests/support/makeDay';
import { startFaultServer, type FaultServer } from '#tests/support/startFaultServer';
import { scoreSender } from '#tests/support/submitScores';
import { ensureStrace } from '../support/strace.mjs';

let programs: FaultPrograms;
let folder = '';
let file = '';
let day: Day;

beforeAll(async () => {
  ensureStrace();
  programs = await bundleFaultPrograms();
});

afterAll(() => programs.remove());

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'evenstack-disk-')));
  file = join(folder, 'evenstack.db');
  day = makeDayFile(file, { seats: 1, devicesPerSeat: 1 }, Date.now());
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The server on a disk that fails: `inject` spoils calls on the one file, counted from the start. */
const startOn = (path: string, inject: string): Promise<FaultServer> =>
  startFaultServer({
    program: programs.server,
    folder,
    under: [
      'strace',
      '-f',
      '-qq',
      '-o',
      '/dev/null',
      '-P',
      path,
      '-e',
      `trace=${inject.split(':')[0]}`,
      '-e',
      `inject=${inject}`,
    ],
  });

type Told = { readonly acknowledged: string[]; readonly codes: string[] };

/** One score after the other; what was acknowledged, and by which code the rest was refused. */
async function sendMany(server: FaultServer, many: number): Promise<Told> {
  const told: Told = { acknowledged: [], codes: [] };
  const device = day.devices.at(-1);
  if (!device) throw new Error('no device');
  const sender = scoreSender(server.url, day, device);
  for (let place = 0; place < many; place += 1) {
    try {
      const { entry, outcome } = await sender.send();
      expect(outcome.status).not.toBe('refused');
      told.acknowledged.push(entry.id);
      told.codes.push('');
    } catch (error) {
      told.codes.push(codeOf(error));
    }
  }
  return told;
}

/** The file after the server is gone: whole, and with everything that was acknowledged. */
function expectKept(acknowledged: readonly string[]): void {
  const client = new Sqlite(file);
  const there = new Set(client.prepare<[], string>('SELECT id FROM entry').pluck().all());
  client.close();
  checkFile(file, 'full');
  expect(acknowledged.filter((id) => !there.has(id))).toEqual([]);
}

it('SC1: after a failed sync nothing more is acknowledged, everyone is told, reading goes on, and the file is whole', async () => {
  const server = await startOn(`${file}-wal`, 'fsync,fdatasync:error=EIO:when=12+');
  const readiness = async () => (await fetch(`${server.url}/readyz`)).status;
  expect(await readiness()).toBe(200);
  const { acknowledged, codes } = await sendMany(server, 30);
  expect(await readiness()).toBe(503);
  expect((await fetch(`${server.url}/healthz`)).status).toBe(200);
  const firstFault = codes.findIndex((code) => code !== '');
  expect(acknowledged.length).toBe(firstFault);
  expect(firstFault).toBeGreaterThan(2);
  expect(new Set(codes.slice(firstFault))).toEqual(new Set(['store-failed']));
  const owner = scoreSender(server.url, day, day.devices[0] ?? { id: '', seatId: '', secret: '' }).client;
  expect(await owner.api.storage.get.query()).toMatchObject({ writesStopped: true });
  expect((await owner.api.evaluation.get.query({ id: day.facts.id })).id).toBe(day.facts.id);
  await expect(owner.api.evaluation.closeRound.mutate({ id: day.facts.id })).rejects.toThrow();
  // One line for each refusal, naming the disk; a score is nowhere in it.
  expect(server.logged.join('')).toMatch(/card\.submit: store-failed: /);
  expect(server.logged.join('')).not.toMatch(/"value"|criterion/);
  await server.end('SIGTERM');
  expectKept(acknowledged);
});

it('SC1: an error that only one sync met ends the writing all the same', async () => {
  const server = await startOn(`${file}-wal`, 'fsync,fdatasync:error=EIO:when=12');
  const { acknowledged, codes } = await sendMany(server, 20);
  const firstFault = codes.indexOf('store-failed');
  expect(firstFault).toBeGreaterThan(2);
  expect(codes.slice(firstFault).every((code) => code === 'store-failed')).toBe(true);
  await server.end('SIGTERM');
  expectKept(acknowledged);
  const again = await startFaultServer({ program: programs.server, folder });
  const after = await sendMany(again, 3);
  expect(after.codes).toEqual(['', '', '']);
  await again.end('SIGTERM');
  expectKept([...acknowledged, ...after.acknowledged]);
});

it('SC1: a full disk refuses what it cannot take and takes the next once there is room; the file is whole', async () => {
  const server = await startOn(`${file}-wal`, 'pwrite64:error=ENOSPC:when=60..75');
  const { acknowledged, codes } = await sendMany(server, 40);
  expect(new Set(codes)).toEqual(new Set(['', 'disk-full']));
  expect(codes.lastIndexOf('disk-full')).toBeLessThan(codes.lastIndexOf(''));
  expect(codes.indexOf('disk-full')).toBeGreaterThan(2);
  expect(await server.end('SIGTERM')).toBe(0);
  expectKept(acknowledged);
});

it('SC1: a disk that cannot be read stops the start with one sentence, and the file is as it was', async () => {
  const before = checkFile(file, 'full');
  const words =
    /The data file .* cannot be read \(.*\)\. Nothing was changed\. A backup is put in its place by: npm run restore -- FILE/;
  await expect(startOn(file, 'pread64:error=EIO:when=20+')).rejects.toThrow(words);
  expect(checkFile(file, 'full')).toEqual(before);
});
