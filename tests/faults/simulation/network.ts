import type { EntryBody, EntryOutcome, SentEntry } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entries';
import { registerOf } from '#lib/evaluation/outboxState';
import type { SimulatedDevice } from './simulatedDevice';
import type { World } from './world';

const callPatience = 4000;

/** One call over the network: lost, doubled or delayed on the way there, lost or delayed on the way back. */
export function call<T>(
  world: World,
  { answered, serve }: { readonly answered: (answer: T | null) => void; readonly serve: () => T },
): void {
  const { random, queue, met } = world;
  let open = true;
  const answer = (value: T | null) => {
    if (!open) return;
    open = false;
    answered(value);
  };
  // Some networks say that a call failed, some leave that to whoever waits.
  if (random.below(3) > 0) queue.plan(callPatience, () => answer(null));
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

export function receive(world: World, device: SimulatedDevice, entries: readonly SentEntry[]): readonly EntryOutcome[] {
  const { seatId, id } = device.seat;
  for (const entry of entries) {
    if (!world.arrived.has(entry.id))
      world.openOnArrival.set(entry.id, world.round === 'open' && !world.locked.has(seatId));
    world.arrived.add(entry.id);
    if (entry.again === true) world.met.again += 1;
  }
  return world.server.submit({ seatId, deviceId: id }, entries);
}

export function crashServer(world: World): void {
  world.met.crashes += 1;
  world.server.crash();
  // What it holds now is to be looked at afresh.
  world.kept = { seen: 0, edits: world.met.restored > 0 ? world.kept.edits : new Set() };
  // Sockets are gone: every device finds out and comes back in its own time.
  for (const device of world.devices) world.queue.plan(500 + world.random.below(3000), () => device.wake());
}

export function ringBells(world: World): void {
  for (const { seatId } of world.server.takeBells()) {
    for (const device of world.devices.filter((one) => seatId === null || one.seat.seatId === seatId)) {
      const times = world.rough ? world.random.below(3) : 1;
      for (let time = 0; time < times; time += 1) world.queue.plan(latency(world), () => device.refresh());
    }
  }
}

/** LV2: what a screen calls stored is stored, that very edit and that very answer. */
export function watch(world: World, device: SimulatedDevice): void {
  if (!device.alive) return;
  const { faults, kept } = world;
  takeInHistory(world);
  for (const [register, { body, counter, place }] of device.shown()) {
    if (place === 'server' && !kept.edits.has(saidKey(device.seat.seatId, [register, counter, body])))
      faults.add('a screen says "on the server" of what the server does not hold');
  }
}

function saidKey(seatId: string, [register, counter, body]: readonly [string, number, EntryBody | null]): string {
  return `${seatId} ${register} ${counter} ${JSON.stringify(body)}`;
}

export function takeInHistory({ server, kept }: World): void {
  for (const { entry, seatId, status } of server.history(kept.seen)) {
    kept.seen += 1;
    if (status !== 'late')
      kept.edits.add(saidKey(seatId, [registerOf(entry.subject, entryField(entry.body)), entry.counter, entry.body]));
  }
}
