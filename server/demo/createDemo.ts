import { dirname, join } from 'node:path';
import { z } from 'zod';
import { open } from '#db/open';
import type { DemoRole } from '#lib/contract/demoView';
import { DomainError, domainErrorCodes } from '#lib/errors';
import { createHub } from '../live/hub';
import type { DemoVisit, Runtime, Tenancy } from '../runtime';
import type { Reconciler } from '../work/reconciler';
import { humanPace, type Pace } from './cast';
import { type Guest, type GuestBook, openGuestBook } from './guestBook';
import { makeCopy } from './makeCopy';
import { type CopySettings, openCopy } from './openCopy';
import { readScenario } from './scenario';
import { createTemplateStore, type TemplateStore } from './templateStore';

type DemoOptions = {
  /** Where copies live: `<data folder>/demo`. */
  readonly folder: string;
  /** The invented litter's file. */
  readonly scenario: string;
  readonly cookieName: string;
  readonly around: Omit<Runtime, 'db' | 'demo' | 'hub'>;
  readonly log: (line: string) => void;
  readonly pace?: Pace;
  readonly mostVisitors?: number;
  /** An address is all that one household, or one class, shows itself by. */
  readonly mostOfOneAddress?: number;
};

export type DemoServer = {
  readonly tenancy: Tenancy;
  /** Starts the clockwork once the demo listens at this address, and begins to make today's template, ahead of the first visitor. */
  start(url: string): Promise<void>;
  /** One move in every copy that is watched; resolves once they are made. */
  beat(): Promise<void>;
  /** Removes the copies whose time is up. */
  sweep(): Promise<void>;
};

const hour = 3_600_000;
/** A copy stays for a day. */
const life = 24 * hour;
/** A cast plays on for so long after its visitor was last heard of. */
const attention = hour / 6;

/**
 * The demo: one copy of the invented litter per visitor, found by the session's secret; whoever has none stands in an
 * empty lobby. Nothing here knows the main server's data.
 */
export function createDemo(options: DemoOptions): DemoServer {
  const { folder, cookieName, pace = humanPace, mostVisitors = 50, mostOfOneAddress = 12 } = options;
  const state = { url: '', closing: false };
  const around = { ...options.around, reconciler: stoppable(options.around.reconciler, state) };
  const scenario = readScenario(options.scenario);
  const failed = (error: unknown) => {
    if (!state.closing && !isRefusal(error))
      options.log(`demo: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  };
  const settings: CopySettings = { scenario, cookieName, pace, life, around, failed, url: () => state.url };
  const house: House = {
    book: openGuestBook(folder),
    templates: createTemplateStore(folder, { scenario, reconciler: around.reconciler, random: around.random }),
    folder,
    pictures: join(dirname(options.scenario), 'pictures'),
    mostVisitors,
    mostOfOneAddress,
    settings,
  };
  const lobby: Runtime = {
    ...around,
    db: open(':memory:'),
    hub: createHub(),
    demo: { enter: (role, visit) => enter(house, { role, ...visit, earlier: null }), copy: null },
  };
  const timers: NodeJS.Timeout[] = [];
  return {
    tenancy: {
      runtimeFor: (secret) => (state.closing ? lobby : (runtimeOf(house, secret) ?? lobby)),
      close: async () => {
        state.closing = true;
        timers.forEach((timer) => clearInterval(timer));
        for (const guest of house.book.all()) await house.book.close(guest);
        await options.around.reconciler.close();
      },
    },
    start: async (url) => {
      state.url = url;
      timers.push(
        setInterval(() => void beat(house), pace.beatMilliseconds),
        setInterval(() => void sweep(house).catch(failed), hour),
      );
      timers.forEach((timer) => timer.unref());
      await sweep(house).catch(failed);
      house.templates.get(around.clock.now()).catch(failed);
    },
    beat: () => beat(house),
    sweep: () => sweep(house),
  };
}

type House = {
  readonly book: GuestBook;
  readonly templates: TemplateStore;
  readonly folder: string;
  readonly pictures: string;
  readonly mostVisitors: number;
  readonly mostOfOneAddress: number;
  readonly settings: CopySettings;
};

type Entering = DemoVisit & {
  readonly role: DemoRole /** The copy that this visitor has. */;
  readonly earlier: Guest | null;
};

async function enter(house: House, { role, id, address, earlier }: Entering): Promise<string> {
  const { book, templates, folder, pictures, settings } = house;
  const { around, scenario } = settings;
  const template = await templates.get(around.clock.now());
  // No waiting from here to the entry in the book: two visitors cannot take the last place.
  const made = book.all().find((guest) => guest.visitor.id === id);
  if (made) return made.visitor.open.secret;
  const spare = roomFor(house, { address, earlier });
  const place = join(folder, id);
  const visitor = makeCopy({
    folder: place,
    id,
    role,
    scenario,
    template,
    pictures,
    around: { ...around, hub: createHub() },
  });
  book.add(place, visitor, address);
  for (const guest of [earlier, spare]) if (guest) await book.remove(guest);
  return visitor.open.secret;
}

/**
 * The copy that goes to make room, null where there is room. Untouched ones go first (entered, and never asked for a thing
 * after that), those of the address that has most, the oldest: whoever takes copies and leaves them takes nobody's place. Throws
 * too-many where this address has its share in use, busy where all are in use.
 */
function roomFor(
  { book, mostVisitors, mostOfOneAddress }: House,
  { address, earlier }: Pick<Entering, 'address' | 'earlier'>,
): Guest | null {
  const others = book.all().filter((guest) => guest !== earlier);
  const here = others.filter((guest) => guest.address === address);
  const share = (guest: Guest) => others.filter((one) => one.address === guest.address).length;
  const untouched = (guests: readonly Guest[]) =>
    guests
      .filter((guest) => guest.seenAt === 0)
      .toSorted((a, b) => share(b) - share(a) || a.visitor.enteredAt - b.visitor.enteredAt)[0];
  if (here.length >= mostOfOneAddress) {
    const spare = untouched(here);
    if (!spare) throw new DomainError('too-many', { most: mostOfOneAddress });
    return spare;
  }
  if (others.length < mostVisitors) return null;
  const spare = untouched(others);
  if (!spare) throw new DomainError('busy');
  return spare;
}

const isOver = ({ settings }: House, { visitor }: Guest) => settings.around.clock.now() >= visitor.enteredAt + life;

/** Undefined for a stranger and for a copy whose time is up. */
function runtimeOf(house: House, secret: string | undefined): Runtime | undefined {
  const found = secret === undefined ? undefined : house.book.find(secret);
  if (!found || isOver(house, found.guest)) return undefined;
  const { guest, scripted } = found;
  const { settings } = house;
  if (!scripted) guest.seenAt = settings.around.clock.now();
  try {
    guest.copy ??= openCopy({
      ...settings,
      ...guest,
      hub: createHub(),
      enter: (role, visit) => enter(house, { role, ...visit, earlier: guest }),
    });
    return guest.copy.runtime;
  } catch (error) {
    // A copy that cannot be opened helps nobody: its visitor starts again in the lobby.
    settings.failed(error);
    house.book.remove(guest).catch(settings.failed);
    return undefined;
  }
}

async function beat({ book, settings: { around, failed } }: House): Promise<void> {
  const moves = book.all().map(async ({ copy, seenAt }) => {
    const watched = around.clock.now() - seenAt < attention;
    await (watched ? copy?.cast.beat() : copy?.cast.close());
  });
  await Promise.all(moves.map((move) => move.catch(failed)));
}

async function sweep(house: House): Promise<void> {
  await Promise.all(
    house.book
      .all()
      .filter((guest) => isOver(house, guest))
      .map((guest) => house.book.remove(guest)),
  );
}

/** The template is made over several questions: none of them may wake the statistics thread once the demo is closed. */
function stoppable(reconciler: Reconciler, state: { readonly closing: boolean }): Reconciler {
  const stopped = () => Promise.reject(new Error('the demo is closing'));
  return {
    reconcile: (question) => (state.closing ? stopped() : reconciler.reconcile(question)),
    agreement: (panel) => (state.closing ? stopped() : reconciler.agreement(panel)),
    profile: (source) => (state.closing ? stopped() : reconciler.profile(source)),
    questions: (panel) => (state.closing ? stopped() : reconciler.questions(panel)),
    looks: (question, ask) => (state.closing ? stopped() : reconciler.looks(question, ask)),
    robustness: (question) => (state.closing ? stopped() : reconciler.robustness(question)),
    close: () => reconciler.close(),
  };
}

const refusalSchema = z.object({ data: z.object({ code: z.enum(domainErrorCodes) }) });

/** Whether a client's error is one of the server's coded refusals. */
const isRefusal = (error: unknown): boolean => refusalSchema.safeParse(error).success;
