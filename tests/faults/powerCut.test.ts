import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { bundleFaultPrograms, type FaultPrograms } from '#tests/support/bundleFaultPrograms';
import { fullSize, hour, seedOfRun } from '#tests/support/faultSize';
import { makeDayFile } from '#tests/support/makeDay';
import { ensureStrace } from '../support/strace.mjs';
import { createDisk, type Cut } from './powerCut/disk';
import { readTrace, type Step } from './powerCut/readTrace';

const images = fullSize ? 1000 : 80;
const scores = fullSize ? 150 : 40;
const cuts: readonly Cut[] = ['nothing', 'everything', 'by chance'];

let programs: FaultPrograms;
let folder = '';

beforeAll(async () => {
  ensureStrace();
  programs = await bundleFaultPrograms();
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'evenstack-power-')));
});

afterAll(() => {
  programs.remove();
  rmSync(folder, { recursive: true, force: true });
});

type Recording = {
  readonly file: string;
  readonly start: ReadonlyMap<string, Buffer>;
  readonly steps: readonly Step[];
};

/** Lets the writer work on a real file with every call to the disk written down. */
function record(synchronous: 'FULL' | 'NORMAL'): Recording {
  const place = join(folder, synchronous);
  mkdirSync(place);
  const file = join(place, 'evenstack.db');
  const day = makeDayFile(file, { seats: 1, devicesPerSeat: 1, puppies: 3 });
  writeFileSync(join(folder, 'day.json'), JSON.stringify(day));
  const start = new Map([[file, readFileSync(file)]]);
  const trace = join(folder, `${synchronous}.trace`);
  const calls = 'trace=openat,pwrite64,fsync,fdatasync,ftruncate,unlink,close,write';
  const run = spawnSync(
    'strace',
    [
      '-xx',
      '-s',
      '200000',
      '-o',
      trace,
      '-e',
      calls,
      process.execPath,
      programs.writer,
      file,
      join(folder, 'day.json'),
      synchronous,
      String(scores),
    ],
    { encoding: 'utf8' },
  );
  const steps = readTrace(readFileSync(trace, 'utf8'));
  const said = steps.filter((step) => step.kind === 'said').length;
  if (said !== scores) throw new Error(`the writer acknowledged ${said} of ${scores}:\n${run.stderr}`);
  return { file, start, steps };
}

type Findings = { images: number; lost: number; corrupt: number; cutsInCheckpoint: number };

/** Cuts the power after every so many steps, in each of the three ways, and looks at what a start finds. */
function explore({ file, start, steps }: Recording, seed: number): Findings {
  const random = createSeededRandom(seed);
  const disk = createDisk(start, join(file, '..'));
  const acknowledged = new Set<string>();
  const findings: Findings = { images: 0, lost: 0, corrupt: 0, cutsInCheckpoint: 0 };
  const first = steps.findIndex((step) => step.kind === 'said');
  const every = Math.max(1, Math.floor(((steps.length - first) * cuts.length) / (images * 1.3)));
  for (const [place, step] of steps.entries()) {
    disk.take(step);
    if (step.kind === 'said') acknowledged.add(step.text.trim());
    // A stride with chance in it: a fixed one would fall into the same place of every commit.
    if (place < first || random.below(every) !== 0) continue;
    if (step.kind === 'write' && step.path === file) findings.cutsInCheckpoint += 1;
    for (const cut of cuts) {
      findings.images += 1;
      const found = startFrom(disk.image(cut, random));
      if (found === null) findings.corrupt += 1;
      else if ([...acknowledged].some((id) => !found.has(id))) findings.lost += 1;
    }
  }
  return findings;
}

/** What a start after the cut finds; null for a file that is damaged. */
function startFrom(image: ReadonlyMap<string, Buffer>): ReadonlySet<string> | null {
  const place = mkdtempSync(join(folder, 'image-'));
  for (const [path, content] of image) if (!path.endsWith('-shm')) writeFileSync(join(place, basename(path)), content);
  const client = new Sqlite(join(place, 'evenstack.db'));
  try {
    if (client.pragma('integrity_check', { simple: true }) !== 'ok') return null;
    return new Set(client.prepare<[], string>('SELECT id FROM entry').pluck().all());
  } catch (error) {
    if (error instanceof Sqlite.SqliteError) return null;
    throw error;
  } finally {
    client.close();
    rmSync(place, { recursive: true });
  }
}

it(`SC1: of ${scores} acknowledged scores none is lost and no file damaged in ${images} cuts of the power and more`, {
  timeout: hour,
}, () => {
  const seed = seedOfRun(0);
  const findings = explore(record('FULL'), seed);
  console.log(`power cut, synchronous=FULL: seed ${seed}, ${JSON.stringify(findings)}`);
  expect(findings).toMatchObject({ lost: 0, corrupt: 0 });
  expect(findings.images).toBeGreaterThanOrEqual(images);
  expect(findings.cutsInCheckpoint).toBeGreaterThan(0);
});

it('SC1: the same cuts find losses where commits are not synced one by one', { timeout: hour }, () => {
  const seed = seedOfRun(0);
  const findings = explore(record('NORMAL'), seed);
  console.log(`power cut, synchronous=NORMAL: seed ${seed}, ${JSON.stringify(findings)}`);
  expect(findings.lost).toBeGreaterThan(0);
});

it('the model of the disk loses exactly what was not synced', () => {
  const random = createSeededRandom(1);
  const disk = createDisk(new Map([['/d/a', Buffer.from('0000')]]), '/d');
  disk.take({ kind: 'write', path: '/d/a', offset: 2, data: Buffer.from('11') });
  expect(disk.image('nothing', random).get('/d/a')?.toString()).toBe('0000');
  expect(disk.image('everything', random).get('/d/a')?.toString()).toBe('0011');
  disk.take({ kind: 'sync', path: '/d/a' });
  disk.take({ kind: 'create', path: '/d/b' });
  disk.take({ kind: 'write', path: '/d/b', offset: 0, data: Buffer.from('2') });
  disk.take({ kind: 'sync', path: '/d/b' });
  expect([...disk.image('nothing', random).keys()]).toEqual(['/d/a']);
  disk.take({ kind: 'sync', path: '/d' });
  expect(disk.image('nothing', random).get('/d/b')?.toString()).toBe('2');
  expect(disk.image('nothing', random).get('/d/a')?.toString()).toBe('0011');
});
