import type { Entry, EntryBody, EntryOutcome } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entryField';
import { registerOf } from '#lib/evaluation/outboxState';
import { createSeededRandom, type SeededRandom } from '#lib/stats/seededRandom';
import type { Day } from '#tests/support/makeDay';
import { createEventQueue, type EventQueue } from './eventQueue';
import { faultsAtRest } from './faultsAtRest';
import { SimulatedDevice, type DeviceFault } from './simulatedDevice';
import type { SimulatedServer } from './simulatedServer';

/** What became of one edit, as the people were told. */
export type EditStory = {
  readonly entry: Entry;
  readonly device: SimulatedDevice;
  /** Told that it is on the device. */
  promised: boolean;
  /** Told that the server has it, and as what. */
  acknowledged: EntryOutcome['status'] | null;
};

/** What a schedule went through: a simulation that never meets what it is about shows nothing. */
export type Met = { edits: number; lost: number; repeated: number; late: number; superseded: number; crashes: number; reopened: number; revealed: number };

export type Story = {
  readonly server: SimulatedServer;
  readonly devices: readonly SimulatedDevice[];
  readonly edits: ReadonlyMap<string, EditStory>;
  /** Whether the round was open to the seat when an entry first reached the server. */
  readonly openOnArrival: ReadonlyMap<string, boolean>;
};

export type Schedule = {
  readonly seed: number;
  readonly day: Day;
  readonly server: SimulatedServer;
  /** Of one device. */
  readonly mostEdits?: number;
  readonly fault?: DeviceFault | null;
};

export type Played = { readonly faults: readonly string[]; readonly met: Met };

type World = {
  readonly day: Day;
  readonly random: SeededRandom;
  readonly queue: EventQueue;
  readonly server: SimulatedServer;
  readonly edits: Map<string, EditStory>;
  readonly openOnArrival: Map<string, boolean>;
  readonly arrived: Set<string>;
  readonly faults: Set<string>;
  /** Of the server's history as far as it was looked at: seat, register, counter and what was said. */
  kept: { seen: number; readonly edits: Set<string> };
  readonly met: Met;
  devices: SimulatedDevice[];
  /** False once all is to settle: nothing is lost or delayed for long any more. */
  rough: boolean;
  round: 'open' | 'closed' | 'revealed';
  locked: Set<string>;
};

const callPatience = 4000;
const scheduleMs = 60_000;

/**
 * Plays one schedule: people edit on several devices while calls are delayed, doubled, overtaken and lost, devices and the
 * server die, clocks go wrong, cards are locked and the round is closed, reopened and revealed. Then everything calms down,
 * and what is left is compared with what was promised. The same seed plays the same schedule.
 */
export function playSchedule({ seed, day, server, mostEdits = 10, fault = null }: Schedule): Played {
  const world: World = {
    day,
    random: createSeededRandom(seed),
    queue: createEventQueue(),
    server,
    edits: new Map(),
    openOnArrival: new Map(),
    arrived: new Set(),
    faults: new Set(),
    kept: { seen: 0, edits: new Set() },
    met: { edits: 0, lost: 0, repeated: 0, late: 0, superseded: 0, crashes: 0, reopened: 0, revealed: 0 },
    devices: [],
    rough: true,
    round: 'open',
    locked: new Set(),
  };
  world.devices = day.devices.map(({ id, seatId }) => makeDevice(world, { id, seatId, fault }));
  planPeople(world, mostEdits);
  world.queue.runUntil(scheduleMs);
  calmDown(world);
  const { devices, edits, openOnArrival } = world;
  for (const one of faultsAtRest({ server, devices, edits, openOnArrival })) world.faults.add(one);
  const statuses = server.history().map((kept) => kept.status);
  world.met.late = statuses.filter((status) => status === 'late').length;
  world.met.superseded = statuses.filter((status) => status === 'superseded').length;
  return { faults: [...world.faults], met: world.met };
}

function makeDevice(world: World, { id, seatId, fault }: { readonly id: string; readonly seatId: string; readonly fault: DeviceFault | null }): SimulatedDevice {
  const { random, queue, edits, day } = world;
  const thenWatch =
    <T>(answered: (answer: T) => void) =>
    (answer: T) => {
      answered(answer);
      watch(world, device);
    };
  const device: SimulatedDevice = new SimulatedDevice(
    { id, seatId, evaluationId: day.facts.id, roundId: day.facts.round?.id ?? '', fault },
    {
      now: queue.now,
      plan: queue.plan,
      diskDelay: () => 5 + random.below(world.rough ? 400 : 10),
      diskFails: () => world.rough && random.below(20) === 0,
      spread: random.uniform,
      submit: (entries, answered) => call(world, { answered: thenWatch(answered), serve: () => receive(world, device, entries) }),
      read: (answered) => call(world, { answered: thenWatch(answered), serve: () => world.server.read(seatId) }),
      freshId: () => (edits.size + 1).toString(16).padStart(32, '0'),
    },
    {
      promised: (entryId) => void (storyOf(world, entryId).promised = true),
      acknowledged: ({ id: entryId, status }) => {
        const story = storyOf(world, entryId);
        if (story.acknowledged !== null && story.acknowledged !== status) world.faults.add(`an entry was answered ${story.acknowledged} and then ${status}`);
        story.acknowledged = status;
      },
    },
  );
  return device;
}

function storyOf({ edits }: World, id: string): EditStory {
  const story = edits.get(id);
  if (!story) throw new Error(`no edit ${id}`);
  return story;
}

/** One call over the network: lost, doubled or delayed on the way there, lost or delayed on the way back. */
function call<T>(world: World, { answered, serve }: { readonly answered: (answer: T | null) => void; readonly serve: () => T }): void {
  const { random, queue, met } = world;
  let open = true;
  const answer = (value: T | null) => {
    if (!open) return;
    open = false;
    answered(value);
  };
  queue.plan(callPatience, () => answer(null));
  const arrivals = world.rough && random.below(8) === 0 ? 2 : 1;
  if (arrivals === 2) met.repeated += 1;
  for (let arrival = 0; arrival < arrivals; arrival += 1) {
    if (world.rough && random.below(7) === 0) {
      met.lost += 1;
      continue;
    }
    queue.plan(latency(world), () => {
      // The process may die before the transaction, or after it and before its answer.
      const dies = world.rough ? random.below(150) : -1;
      if (dies === 0) return crashServer(world);
      const value = serve();
      ringBells(world);
      if (dies === 1) return crashServer(world);
      if (world.rough && random.below(7) === 0) return void (met.lost += 1);
      queue.plan(latency(world), () => answer(value));
    });
  }
}

function latency({ random, rough }: World): number {
  if (!rough) return 1 + random.below(20);
  return random.below(5) === 0 ? random.below(6000) : 1 + random.below(150);
}

function receive(world: World, device: SimulatedDevice, entries: readonly Entry[]): readonly EntryOutcome[] {
  const { seatId, id } = device.seat;
  for (const entry of entries) {
    if (!world.arrived.has(entry.id)) world.openOnArrival.set(entry.id, world.round === 'open' && !world.locked.has(seatId));
    world.arrived.add(entry.id);
  }
  return world.server.submit({ seatId, deviceId: id }, entries);
}

function crashServer(world: World): void {
  world.met.crashes += 1;
  world.server.crash();
  // What it holds now is to be looked at afresh.
  world.kept = { seen: 0, edits: new Set() };
  // Sockets are gone: every device finds out and comes back in its own time.
  for (const device of world.devices) world.queue.plan(500 + world.random.below(3000), () => device.wake());
}

function ringBells(world: World): void {
  for (const { seatId } of world.server.takeBells()) {
    for (const device of world.devices.filter((one) => seatId === null || one.seat.seatId === seatId)) {
      const times = world.rough ? world.random.below(3) : 1;
      for (let time = 0; time < times; time += 1) world.queue.plan(latency(world), () => device.refresh());
    }
  }
}

/** LV2: what a screen calls stored is stored, that very edit and that very answer. */
function watch({ server, faults, kept }: World, device: SimulatedDevice): void {
  if (!device.alive) return;
  const key = (seatId: string, [register, counter, body]: readonly [string, number, EntryBody | null]) => `${seatId} ${register} ${counter} ${JSON.stringify(body)}`;
  for (const { entry, seatId, status } of server.history(kept.seen)) {
    kept.seen += 1;
    if (status !== 'late') kept.edits.add(key(seatId, [registerOf(entry.subject, entryField(entry.body)), entry.counter, entry.body]));
  }
  for (const [register, { body, counter, place }] of device.shown()) {
    if (place === 'server' && !kept.edits.has(key(device.seat.seatId, [register, counter, body]))) faults.add('a screen says "on the server" of what the server does not hold');
  }
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
    const skew = random.below(4) === 0 ? (random.below(2) === 0 ? -1 : 1) * random.below(86_400_000) : 0;
    for (let edit = 0, many = 1 + random.below(mostEdits); edit < many; edit += 1) {
      queue.plan(random.below(scheduleMs), () => {
        if (!device.alive) return;
        const body: EntryBody = { kind: 'score', criterion: pick(criteria).key, cannotJudge: false, value: 1 + random.below(7) };
        const entry = device.edit(pick(showings).id, body, skew);
        world.edits.set(entry.id, { entry, device, promised: false, acknowledged: null });
        met.edits += 1;
      });
    }
    for (let beat = 0; beat < scheduleMs; beat += 5000) queue.plan(beat + random.below(5000), () => device.flush());
    for (let wakes = random.below(4); wakes > 0; wakes -= 1) queue.plan(random.below(scheduleMs), () => device.wake());
    for (let crashes = random.below(3); crashes > 0; crashes -= 1) {
      const at = random.below(scheduleMs);
      queue.plan(at, () => device.crash(random.below(2) === 0));
      queue.plan(at + random.below(8000), () => device.restart());
    }
  }
  for (let crashes = random.below(3); crashes > 0; crashes -= 1) queue.plan(random.below(scheduleMs), () => crashServer(world));
  for (let steps = random.below(4); steps > 0; steps -= 1) queue.plan(random.below(scheduleMs), () => world.server.setClock(1_789_000_000_000 + random.below(100_000_000) - 50_000_000));
  planRound(world);
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
function calmDown(world: World): void {
  const { queue, devices, faults } = world;
  queue.runUntil(queue.now() + scheduleMs);
  world.rough = false;
  for (const device of devices) {
    device.restart();
    device.wake();
    // What a device could not write it still sends; the heartbeat of a waiting outbox goes on.
    for (let beat = 1; beat <= 9; beat += 1) queue.plan(beat * 5000, () => device.flush());
  }
  if (!queue.runOut(200_000)) faults.add('the devices never come to rest');
  for (const device of devices) watch(world, device);
}
