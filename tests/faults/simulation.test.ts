import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { makeDayFile, type Day } from '#tests/support/makeDay';
import { fullSize, hour, seedOfRun } from '#tests/support/faultSize';
import { playSchedule, type Met } from './simulation/playSchedule';
import { pureServer, type ServerFault } from './simulation/pureServer';
import { realServer } from './simulation/realServer';
import type { DeviceFault } from './simulation/simulatedDevice';

const pureSchedules = fullSize ? 50_000 : 5000;
const realSchedules = fullSize ? 2000 : 200;
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

const nothingMet = (): Met => ({ edits: 0, lost: 0, repeated: 0, late: 0, superseded: 0, crashes: 0, reopened: 0, revealed: 0 });

/** A simulation shows something only about what it went through. */
function expectAllMet(total: Met): void {
  for (const [what, times] of Object.entries(total)) expect([what, times > 0]).toEqual([what, true]);
}

it(`SC2, SC3, SC5, LV1, LV2: ${pureSchedules} schedules of faults on the rules alone lose, double and misplace nothing`, { timeout: 2 * hour }, () => {
  const total = nothingMet();
  for (let run = 0; run < pureSchedules; run += 1) {
    const seed = seedOfRun(run);
    const { faults, met } = playSchedule({ seed, day, server: pureServer(day.facts) });
    expect({ seed, faults }).toEqual({ seed, faults: [] });
    addUp(total, met);
  }
  console.log(`pure: ${pureSchedules} schedules from seed ${seedOfRun(0)}: ${JSON.stringify(total)}`);
  expectAllMet(total);
});

it(`SC1, SC2, SC3, SC5, LV1: ${realSchedules} schedules on real files, by the real commands, lose, double and misplace nothing`, { timeout: 2 * hour }, () => {
  const total = nothingMet();
  for (let run = 0; run < realSchedules; run += 1) {
    const seed = seedOfRun(run);
    const server = realServer(smallDay, template, join(folder, `run-${run}.db`));
    try {
      const { faults, met } = playSchedule({ seed, day: smallDay, server, mostEdits: 4 });
      expect({ seed, faults }).toEqual({ seed, faults: [] });
      addUp(total, met);
    } finally {
      server.end();
    }
  }
  console.log(`real: ${realSchedules} schedules from seed ${seedOfRun(0)}: ${JSON.stringify(total)}`);
  expectAllMet(total);
});

const serverFaults: readonly ServerFault[] = ['forgets-repeats', 'applies-late', 'last-arrival-wins', 'acknowledges-before-commit', 'rings-nobody'];
const deviceFaults: readonly DeviceFault[] = ['forgets-when-sent', 'shows-sent-as-stored', 'never-catches-up'];

it.each(serverFaults)('SC2, SC3, SC5: the simulation notices a server that %s', (fault) => {
  const found = Array.from({ length: schedulesPerFault }, (_, run) => playSchedule({ seed: seedOfRun(run), day, server: pureServer(day.facts, fault) }).faults);
  expect(found.flat()).not.toEqual([]);
});

it.each(deviceFaults)('LV1, LV2: the simulation notices a device that %s', (fault) => {
  const found = Array.from({ length: schedulesPerFault }, (_, run) => playSchedule({ seed: seedOfRun(run), day, server: pureServer(day.facts), fault }).faults);
  expect(found.flat()).not.toEqual([]);
});
