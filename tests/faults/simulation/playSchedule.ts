import type { EntryBody } from '#lib/contract/entry';
import { createSeededRandom } from '#lib/stats/seededRandom';
import type { Day } from '#tests/support/makeDay';
import { createEventQueue } from './eventQueue';
import { faultsAtRest } from './faultsAtRest';
import { call, crashServer, receive, ringBells, takeInHistory, watch } from './network';
import { SimulatedDevice, type DeviceFault } from './simulatedDevice';
import type { SimulatedServer } from './simulatedServer';
import type { EditStory, Met, World } from './world';

export type Schedule = {
  readonly seed: number;
  readonly day: Day;
  readonly server: SimulatedServer;
  /** Of one device. */
  readonly mostEdits?: number;
  readonly fault?: DeviceFault | null;
};

export type Played = { readonly faults: readonly string[]; readonly met: Met };

const scheduleMs = 60_000;

/**
 * Plays one schedule: people edit on several devices while calls are delayed, doubled, overtaken and lost, devices and the
 * server die, clocks go wrong, cards are locked and the round is closed, reopened and revealed. Then everything calms down,
 * and what is left is compared with what was promised. The same seed plays the same schedule.
 */
export async function playSchedule({ seed, day, server, mostEdits = 10, fault = null }: Schedule): Promise<Played> {
  const world: World = {
    day,
    random: createSeededRandom(seed),
    queue: createEventQueue(() => lookAtDevices(world)),
    server,
    edits: new Map(),
    openOnArrival: new Map(),
    arrived: new Set(),
    faults: new Set(),
    kept: { seen: 0, edits: new Set() },
    met: {
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
    },
    devices: [],
    rough: true,
    round: 'open',
    locked: new Set(),
    made: 0,
  };
  world.devices = day.devices.map(({ id, seatId }) => makeDevice(world, { id, seatId, fault }));
  planPeople(world, mostEdits);
  await world.queue.runUntil(scheduleMs);
  await calmDown(world);
  const { devices, edits, openOnArrival, met } = world;
  for (const one of faultsAtRest({ server, devices, edits, openOnArrival, restored: met.restored > 0 }))
    world.faults.add(one);
  const statuses = server.history().map((kept) => kept.status);
  world.met.late = statuses.filter((status) => status === 'late').length;
  world.met.superseded = statuses.filter((status) => status === 'superseded').length;
  return { faults: [...world.faults], met: world.met };
}

function makeDevice(
  world: World,
  { id, seatId, fault }: { readonly id: string; readonly seatId: string; readonly fault: DeviceFault | null },
): SimulatedDevice {
  const { random, queue, day } = world;
  const thenWatch =
    <T>(answered: (answer: T) => void) =>
    (answer: T) => {
      answered(answer);
      watch(world, device);
    };
  const skew = random.below(4) === 0 ? (random.below(2) === 0 ? -1 : 1) * random.below(86_400_000) : 0;
  const device: SimulatedDevice = new SimulatedDevice(
    { id, seatId, evaluationId: day.facts.id, roundId: day.facts.round?.id ?? '', skew, fault },
    {
      queue,
      random,
      isRough: () => world.rough,
      submit: (entries, answered) =>
        call(world, { answered: thenWatch(answered), serve: () => receive(world, device, entries) }),
      read: (answered) => call(world, { answered: thenWatch(answered), serve: () => world.server.read(seatId) }),
      freshId: () => (world.made += 1).toString(16).padStart(32, '0'),
    },
    {
      promised: (entryId) => void (storyOf(world, entryId).promised = true),
      acknowledged: ({ id: entryId, status }) => {
        const story = storyOf(world, entryId);
        if (story.acknowledged !== null && story.acknowledged !== status && world.met.restored === 0)
          world.faults.add(`an entry was answered ${story.acknowledged} and then ${status}`);
        story.acknowledged = status;
      },
    },
  );
  return device;
}

/** Looked at after every event, so that a fault is seen where it begins. */
function lookAtDevices({ devices, faults }: World): void {
  for (const device of devices) for (const fault of device.faultsNow()) faults.add(fault);
}

function storyOf({ edits }: World, id: string): EditStory {
  const story = edits.get(id);
  if (!story) throw new Error(`no edit ${id}`);
  return story;
}

function planPeople(world: World, mostEdits: number): void {
  const { random, queue, devices, day, met } = world;
  const showings = day.facts.round?.showings.slice(0, 2) ?? [];
  const criteria = day.facts.sheet.criteria.filter((one) => !one.twoSided).slice(0, 2);
  const pick = <T>(list: readonly T[]): T => {
    const one = list[random.below(list.length)];
    if (one === undefined) throw new Error('nothing to choose from');
    return one;
  };
  for (const device of devices) {
    device.refresh();
    for (let edit = 0, many = 1 + random.below(mostEdits); edit < many; edit += 1) {
      queue.plan(random.below(scheduleMs), () => {
        if (!device.ready) return;
        const body: EntryBody = {
          kind: 'score',
          criterion: pick(criteria).key,
          cannotJudge: false,
          value: 1 + random.below(7),
        };
        const entry = device.edit(pick(showings).id, body);
        world.edits.set(entry.id, { entry, device, promised: false, acknowledged: null });
        met.edits += 1;
      });
    }
    for (let words = random.below(3); words > 0; words -= 1) queue.plan(random.below(scheduleMs), () => device.hear());
    for (let wakes = random.below(4); wakes > 0; wakes -= 1) queue.plan(random.below(scheduleMs), () => device.wake());
    for (let crashes = random.below(3); crashes > 0; crashes -= 1) {
      const at = random.below(scheduleMs);
      queue.plan(at, () => device.crash(random.below(2) === 0));
      queue.plan(at + random.below(8000), () => device.restart());
    }
  }
  for (let crashes = random.below(3); crashes > 0; crashes -= 1)
    queue.plan(random.below(scheduleMs), () => crashServer(world));
  for (let steps = random.below(4); steps > 0; steps -= 1)
    queue.plan(random.below(scheduleMs), () =>
      world.server.setClock(1_789_000_000_000 + random.below(100_000_000) - 50_000_000),
    );
  planRound(world);
  planRestore(world);
}

/** Every third schedule the server is restored from a backup of a while ago, and every device notices in its own time. */
function planRestore(world: World): void {
  const { random, queue, server, met } = world;
  if (random.below(3) > 0) return;
  const backedUpAt = random.below(scheduleMs);
  const closes = random.below(3) === 0;
  queue.plan(backedUpAt, () => server.backUp());
  queue.plan(backedUpAt + random.below(scheduleMs), () => {
    takeInHistory(world);
    const restored = server.restore(closes);
    if (!restored) return;
    met.restored += 1;
    world.arrived = new Set(server.history().map((kept) => kept.entry.id));
    // What was on screens until now was true when it was said.
    world.kept.seen = 0;
    world.locked = new Set(restored.locked);
    world.round = restored.round;
    ringBells(world);
  });
}

/** Locks, and what the owner does with the round. */
function planRound(world: World): void {
  const { random, queue, devices, server, day } = world;
  const seats = day.facts.seats.map((seat) => seat.id);
  const lock = (seatId: string) => {
    const device = devices.find((one) => one.alive && one.seat.seatId === seatId);
    if (device && server.lock({ seatId, deviceId: device.seat.id }, device.answers)) world.locked.add(seatId);
    if (seats.every((id) => world.locked.has(id)) && world.round === 'open') world.round = 'closed';
  };
  const steps: (() => void)[] = [
    ...Array.from({ length: 3 }, () => () => lock(seats[random.below(seats.length)] ?? '')),
    () => (lock(seats[0] ?? ''), void (server.close() && (world.round = 'closed'))),
    () => {
      if (!server.reopen()) return;
      world.round = 'open';
      world.locked.clear();
      world.met.reopened += 1;
    },
    () => {
      if (!server.reveal()) return;
      world.round = 'revealed';
      world.met.revealed += 1;
    },
  ];
  for (let many = random.below(9); many > 0; many -= 1) {
    queue.plan(scheduleMs / 4 + random.below(scheduleMs), () => {
      steps[random.below(steps.length)]?.();
      ringBells(world);
    });
  }
}

/** The link is good, everybody is back, and nobody does anything more. */
async function calmDown(world: World): Promise<void> {
  const { queue, devices } = world;
  await queue.runUntil(queue.now() + scheduleMs);
  world.rough = false;
  for (const device of devices) {
    device.restart();
    device.wake();
  }
  // What a device could not write it still sends: the longest wait between two tries is half a minute.
  await queue.runUntil(queue.now() + scheduleMs);
  for (const device of devices) watch(world, device);
}
