import { PhotoQueue } from '#app/_data/photoQueue';
import type { PhotoStore, WaitingPhoto } from '#app/_data/photoStore';
import { createSeededRandom, type SeededRandom } from '#lib/stats/seededRandom';
import { createEventQueue, type EventQueue } from './eventQueue';
import { FakeDisk } from './fakeDisk';

/** Ways to break the pictures' way to the server that the simulation must notice. */
export type PictureFault = 'believes-anybody' | 'takes-what-it-read-over-what-it-knows';

export type PicturesMet = { taken: number; lost: number; repeated: number; refused: number; crashes: number };

/** As the queue once was: a slow read of the device undid what had happened since. */
class StaleQueue extends PhotoQueue {
  protected override takeIn(read: readonly WaitingPhoto[]): void {
    for (const photo of read) void this.add(photo);
  }
}

type Page = { readonly queue: PhotoQueue; alive: boolean; postsOut: number; readonly sentHere: Set<string> };

type World = {
  readonly random: SeededRandom;
  readonly events: EventQueue;
  readonly disk: FakeDisk<WaitingPhoto>;
  readonly fault: PictureFault | null;
  /** What the server has, by id. */
  readonly server: Set<string>;
  /** Told to be on the device's disk. */
  readonly promised: Set<string>;
  readonly putAway: Set<string>;
  readonly faults: Set<string>;
  readonly met: PicturesMet;
  rough: boolean;
  page: Page;
};

const scheduleMs = 60_000;
const pictures = 6;

/** Plays pictures taken on one device while its disk, its page and its network fail; then all calms down, and nothing may be missing. */
export async function playPictures(
  seed: number,
  fault: PictureFault | null = null,
): Promise<{ readonly faults: readonly string[]; readonly met: PicturesMet }> {
  const random = createSeededRandom(seed);
  const events = createEventQueue(() => lookAtPage(world));
  const disk = new FakeDisk<WaitingPhoto>({ queue: events, random, isRough: () => world.rough, answersAlways: true });
  const met = { taken: 0, lost: 0, repeated: 0, refused: 0, crashes: 0 };
  const world: World = {
    random,
    events,
    disk,
    fault,
    met,
    server: new Set(),
    promised: new Set(),
    putAway: new Set(),
    faults: new Set(),
    rough: true,
    get page() {
      return page;
    },
    set page(next) {
      page = next;
    },
  };
  let page = openPage(world);
  planPerson(world);
  await events.runUntil(2 * scheduleMs);
  world.rough = false;
  if (!world.page.alive) world.page = openPage(world);
  world.page.queue.wake();
  await events.runUntil(3 * scheduleMs);
  if (world.page.queue.getView().rows.some((row) => row.code === null))
    world.faults.add('a picture still waits although the link is good');
  // What the device could not forget is sent once more by the next page, which forgets it.
  world.page.alive = false;
  world.page = openPage(world);
  await events.runUntil(4 * scheduleMs);
  for (const one of faultsAtRest(world)) world.faults.add(one);
  return { faults: [...world.faults], met };
}

function pictureOf(number: number): WaitingPhoto {
  const id = number.toString(16).padStart(32, '0');
  return {
    id,
    evaluationId: 'e',
    seat: 's',
    puppyId: 'p',
    view: 'front',
    takenAt: number,
    fair: true,
    name: `${number}.jpg`,
    bytes: new ArrayBuffer(1),
    type: 'image/jpeg',
    addedAt: number,
    code: null,
  };
}

/** Every third picture is one that the server refuses for good. */
const isRefused = (id: string) => Number.parseInt(id, 16) % 3 === 0;

function planPerson(world: World): void {
  const { random, events, met } = world;
  for (let number = 1; number <= pictures; number += 1) {
    events.plan(random.below(scheduleMs), () => {
      if (!world.page.alive) return;
      met.taken += 1;
      void world.page.queue.add(pictureOf(number));
    });
  }
  for (let wakes = random.below(4); wakes > 0; wakes -= 1)
    events.plan(random.below(scheduleMs), () => world.page.alive && world.page.queue.wake());
  // A page that is shown anew reads the device again.
  for (let starts = random.below(3); starts > 0; starts -= 1)
    events.plan(random.below(scheduleMs), () => void (world.page.alive && world.page.queue.start()));
  for (let crashes = random.below(3); crashes > 0; crashes -= 1) {
    const at = random.below(scheduleMs);
    events.plan(at, () => {
      world.page.alive = false;
      world.disk.crash(random.below(2) === 0);
      met.crashes += 1;
    });
    events.plan(at + random.below(8000), () => {
      if (!world.page.alive) world.page = openPage(world);
    });
  }
}

function openPage(world: World): Page {
  const { events, random } = world;
  const living = (work: () => void) => () => {
    if (page.alive) work();
  };
  const Queue = world.fault === 'takes-what-it-read-over-what-it-knows' ? StaleQueue : PhotoQueue;
  const queue = new Queue({
    evaluationId: 'e',
    seat: 's',
    store: storeOf(world),
    now: events.now,
    after: (milliseconds, work) => {
      let wanted = true;
      events.plan(
        milliseconds,
        living(() => wanted && work()),
      );
      return () => {
        wanted = false;
      };
    },
    spread: random.uniform,
    alone: (work) => work(),
    onSent: () => undefined,
    post: (photo, onShare) => post(world, { page, photo, onShare }),
  });
  const page: Page = { queue, alive: true, postsOut: 0, sentHere: new Set() };
  void queue.start();
  return page;
}

function storeOf({ disk, promised }: World): PhotoStore {
  const { rows } = disk;
  return {
    load: () => disk.work(() => [...rows.values()]),
    save: (photo) => disk.work(() => void rows.set(photo.id, photo)).then(() => void promised.add(photo.id)),
    remove: (id) => disk.work(() => void rows.delete(id)),
    count: () => disk.work(() => rows.size),
    clear: () => disk.work(() => rows.clear()),
    close: () => undefined,
  };
}

type Posting = { readonly page: Page; readonly photo: WaitingPhoto; readonly onShare: (share: number) => void };

/** One upload: lost on the way there or back, doubled, refused for good or for now. */
function post({ random, events, server, met, rough, fault }: World, { page, photo, onShare }: Posting): Promise<void> {
  page.postsOut += 1;
  return new Promise((resolve, reject) => {
    const end = (work: () => void) => () => {
      if (!page.alive) return;
      page.postsOut -= 1;
      work();
      // The browser may still tell a share of what is over.
      events.plan(1, () => page.alive && onShare(1));
    };
    events.plan(random.below(50), () => page.alive && onShare(0.5));
    const delay = 50 + random.below(rough ? 3000 : 100);
    const fate = rough ? random.below(8) : 7;
    if (fate === 0) {
      met.lost += 1;
      return events.plan(
        delay,
        end(() => (fault === 'believes-anybody' ? resolve() : reject(new Error('no answer')))),
      );
    }
    if (isRefused(photo.id)) {
      met.refused += 1;
      return events.plan(
        delay,
        end(() => reject(Object.assign(new Error('refused'), { data: { code: 'file-unreadable' } }))),
      );
    }
    events.plan(delay, () => {
      if (server.has(photo.id)) met.repeated += 1;
      server.add(photo.id);
      page.sentHere.add(photo.id);
    });
    events.plan(
      delay + 1,
      end(() => (fate === 1 ? reject(new Error('no answer')) : resolve())),
    );
  });
}

function lookAtPage({ page, faults }: World): void {
  if (!page.alive) return;
  const { sending, sent } = page.queue.getView();
  if (sending !== null && page.postsOut === 0) faults.add('a picture is called under way without a call');
  if (sent > page.sentHere.size) faults.add('more pictures are called sent than the server took');
}

function faultsAtRest({ page, server, promised, disk }: World): string[] {
  const { rows, sending } = page.queue.getView();
  const waits = rows.some((row) => row.code === null) || sending !== null;
  const lost = [...promised].some((id) => !isRefused(id) && !server.has(id));
  const untold = [...promised].some((id) => isRefused(id) && !rows.some((row) => row.id === id && row.code !== null));
  const left = [...disk.rows.keys()].some((id) => !isRefused(id));
  return [
    ...(waits ? ['a picture still waits although the link is good'] : []),
    ...(lost ? ['a picture that was on the device never reached the server'] : []),
    ...(untold ? ['a refused picture is not shown'] : []),
    ...(left ? ['a picture stays on the device although the server has it'] : []),
  ];
}
