import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { makeDayFile, type Day } from '#tests/support/makeDay';
import { fullSize, hour, seedOfRun } from '#tests/support/faultSize';
import { playPictures, type PictureFault, type PicturesMet } from './simulation/playPictures';
import { playSchedule, type Schedule } from './simulation/playSchedule';
import { pureServer, type ServerFault } from './simulation/pureServer';
import { realServer } from './simulation/realServer';
import type { DeviceFault } from './simulation/simulatedDevice';
import type { Met } from './simulation/world';

const pureSchedules = fullSize ? 50_000 : 400;
const pictureSchedules = fullSize ? 50_000 : 200;
const realSchedules = fullSize ? 2000 : 40;
/** A planted fault must show within so many schedules. */
const schedulesPerFault = 100;

let folder = '';
let template = '';
let day: Day;
/** One seat beside the owner's: what is real is slower. */
let smallDay: Day;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-simulation-'));
  template = join(folder, 'template.db');
  smallDay = makeDayFile(template, { seats: 1, devicesPerSeat: 2, puppies: 2 });
  day = makeDayFile(join(folder, 'larger.db'), { seats: 2, devicesPerSeat: 2, puppies: 2 });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function addUp(total: Met, met: Met): void {
  for (const key of Object.keys(met) as (keyof Met)[]) total[key] += met[key];
}

const nothingMet = (): Met => ({
  edits: 0,
  lost: 0,
  repeated: 0,
  late: 0,
  superseded: 0,
  crashes: 0,
  reopened: 0,
  revealed: 0,
  restored: 0,
  again: 0,
});

/** A simulation shows something only about what it went through. */
function expectAllMet(total: Met, cannotMeet: readonly string[] = []): void {
  for (const [what, times] of Object.entries(total).filter(([one]) => !cannotMeet.includes(one)))
    expect([what, times > 0]).toEqual([what, true]);
}

it(`SC2, SC3, SC5, SC6, LV1, LV2: ${pureSchedules} schedules of faults on the rules alone lose, double and misplace nothing`, {
  timeout: 2 * hour,
}, async () => {
  const total = nothingMet();
  const size = fullSize ? { day, mostEdits: 10 } : { day: smallDay, mostEdits: 4 };
  for (let run = 0; run < pureSchedules; run += 1) {
    const seed = seedOfRun(run);
    const { faults, met } = await playSchedule({ seed, server: pureServer(size.day.facts), ...size });
    expect({ seed, faults }).toEqual({ seed, faults: [] });
    addUp(total, met);
  }
  console.log(`pure: ${pureSchedules} schedules from seed ${seedOfRun(0)}: ${JSON.stringify(total)}`);
  expectAllMet(total);
});

it(`SC1, SC2, SC3, SC5, LV1: ${realSchedules} schedules on real files, by the real commands, lose, double and misplace nothing`, {
  timeout: 2 * hour,
}, async () => {
  const total = nothingMet();
  for (let run = 0; run < realSchedules; run += 1) {
    const seed = seedOfRun(run);
    const server = realServer(smallDay, template, join(folder, `run-${run}.db`));
    try {
      const { faults, met } = await playSchedule({ seed, day: smallDay, server, mostEdits: 4 });
      expect({ seed, faults }).toEqual({ seed, faults: [] });
      addUp(total, met);
    } finally {
      server.end();
    }
  }
  console.log(`real: ${realSchedules} schedules from seed ${seedOfRun(0)}: ${JSON.stringify(total)}`);
  expectAllMet(total, ['restored', 'again']);
});

it(`SC1, SC2, LV2: ${pictureSchedules} schedules of pictures on a failing device lose none and call none sent that is not`, {
  timeout: 2 * hour,
}, async () => {
  const total: PicturesMet = { taken: 0, lost: 0, repeated: 0, refused: 0, crashes: 0 };
  for (let run = 0; run < pictureSchedules; run += 1) {
    const seed = seedOfRun(run);
    const { faults, met } = await playPictures(seed);
    expect({ seed, faults }).toEqual({ seed, faults: [] });
    for (const key of Object.keys(met) as (keyof PicturesMet)[]) total[key] += met[key];
  }
  console.log(`pictures: ${pictureSchedules} schedules from seed ${seedOfRun(0)}: ${JSON.stringify(total)}`);
  for (const [what, times] of Object.entries(total)) expect([what, times > 0]).toEqual([what, true]);
});

it.each<PictureFault>(['believes-anybody', 'takes-what-it-read-over-what-it-knows'])(
  'SC2, LV2: the simulation notices a queue of pictures that %s',
  async (fault) => {
    const found = new Set<string>();
    for (let run = 0; run < schedulesPerFault; run += 1)
      for (const one of (await playPictures(seedOfRun(run), fault)).faults) found.add(one);
    expect([...found]).not.toEqual([]);
  },
);

const serverFaults: readonly ServerFault[] = [
  'forgets-repeats',
  'applies-late',
  'last-arrival-wins',
  'acknowledges-before-commit',
  'rings-nobody',
];
const deviceFaults: readonly DeviceFault[] = [
  'forgets-when-sent',
  'shows-sent-as-stored',
  'never-catches-up',
  'reads-before-it-waits',
  'forgets-when-shown',
];

async function firstFaults(schedule: (run: number) => Schedule): Promise<readonly string[]> {
  for (let run = 0; run < schedulesPerFault; run += 1) {
    const { faults } = await playSchedule(schedule(run));
    if (faults.length > 0) return faults;
  }
  return [];
}

it.each(serverFaults)('SC2, SC3, SC5: the simulation notices a server that %s', async (fault) => {
  expect(await firstFaults((run) => ({ seed: seedOfRun(run), day, server: pureServer(day.facts, fault) }))).not.toEqual(
    [],
  );
});

it.each(deviceFaults)('LV1, LV2: the simulation notices a device that %s', async (fault) => {
  expect(await firstFaults((run) => ({ seed: seedOfRun(run), day, server: pureServer(day.facts), fault }))).not.toEqual(
    [],
  );
});
