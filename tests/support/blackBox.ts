import type { Socket } from 'socket.io-client';
import { seedBlindDay, speaksOtherwise, type BlindDay, type Viewer, type WorldNumber } from './blindDay';
import type { BlindStage, Story } from './blindStories';
import type { Random } from '#server/random';
import { callBatch } from './callBatch';
import { callProcedure } from './callProcedure';
import { listenLive } from './listenLive';
import { listProcedures, type ListedProcedure } from './listProcedures';
import { promiseOf } from './lockCard';
import { maskPromises } from './maskPromises';
import { sampleInput, type KnownFields } from './sampleInput';
import { seededIds } from './seededIds';
import { soundInputs } from './soundInputs';
import { startTestServer, type TestServer } from './startTestServer';
import { whoMay } from './whoMay';
import { withoutTrace } from './withoutTrace';

/** One thing that a viewer was told: by which call or frame, and all of it. */
type Told = { readonly by: string; readonly text: string };
type StageHeard = {
  readonly name: string;
  readonly blind: boolean;
  readonly viewers: readonly Pick<Viewer, 'name' | 'holder' | 'inside'>[];
  readonly told: ReadonlyMap<string, readonly Told[]>;
};
export type World = {
  readonly number: WorldNumber;
  readonly stages: readonly StageHeard[];
  /** What no viewer should have been told, and calls that answered somebody they must not. Empty when all is well. */
  readonly faults: readonly string[];
  /** By stage and viewer: how many of its own words it was told. */
  readonly own: ReadonlyMap<string, number>;
};

export type Playing = {
  readonly world: WorldNumber;
  /** Only so many of the story's stages. */
  readonly stages?: number;
  /** Makes a leak in the server's data, to see that it is seen. */
  readonly plant?: (server: TestServer) => void;
};

/**
 * Plays a story over real HTTP and sockets. At each stage every viewer calls every procedure in batches, changes being taken back
 * afterwards, and in the first world each query by itself as well; its socket is listened to while the stage begins.
 */
export async function playWorld(story: Story, { world, stages = story.stages.length, plant }: Playing): Promise<World> {
  const random = twoStreams();
  await using server = await startTestServer({ random });
  const day = await seedBlindDay(server, world, story.kind);
  plant?.(server);
  const known = await soundInputs(
    { id: day.id, owner: day.owner, seats: {}, links: {} },
    { client: day.owner, label: 'breeder' },
    seededIds('inputs'),
  );
  const heard: StageHeard[] = [];
  const faults: string[] = [];
  const own = new Map<string, number>();
  for (const stage of story.stages.slice(0, stages)) {
    const told = await listenWhile(day, stage);
    // Worked out once and stored, the same in every world: whoever asks later finds it.
    for (const procedure of listProcedures().filter(computes))
      await callProcedure(
        day.owner,
        procedure,
        (await inputsOf(day, { client: day.owner, holder: null }, known))(procedure),
      );
    for (const viewer of day.viewers) {
      const all = [
        ...(told.get(viewer.name) ?? []),
        ...(await askEverything(day, viewer, {
          known,
          faults,
          stage: stage.name,
          aside: world === 0 ? random.aside : null,
        })),
      ];
      told.set(
        viewer.name,
        all.map(({ by, text }) => ({ by, text: maskPromises(text) })),
      );
      for (const one of viewer.inside ? day.hidden.filter(({ holder }) => holder !== viewer.holder) : day.said) {
        for (const { by } of all.filter(({ text }) => text.includes(one.text)))
          faults.push(`${stage.name}: ${viewer.name} was told ${one.text} of ${one.holder} by ${by}`);
      }
      own.set(
        `${stage.name}: ${viewer.name}`,
        day.hidden.filter(
          ({ holder, text: word }) => holder === viewer.holder && all.some(({ text }) => text.includes(word)),
        ).length,
      );
    }
    heard.push({ name: stage.name, blind: stage.blind, viewers: [...day.viewers], told });
  }
  // Nothing unforeseen happens, so nothing is logged, a score least of all.
  faults.push(...server.logged.map((line) => `logged: ${line}`));
  return { number: world, stages: heard, faults, own };
}

/**
 * Compares two worlds, viewer by viewer. Where its own holder speaks alike in both, and for outsiders always, every difference is a
 * leak; where its holder does not, no difference would mean that this comparison finds nothing.
 */
export function compareWorlds(
  one: World,
  other: World,
): { readonly leaks: readonly string[]; readonly blunt: readonly string[] } {
  const [leaks, blunt]: [string[], string[]] = [[], []];
  one.stages.forEach((stage, at) => {
    const there = other.stages[at];
    for (const viewer of there ? stage.viewers.filter((each) => stage.blind || !each.inside) : []) {
      const { name, holder } = viewer;
      const found = firstDifference(callsOf(stage, name), callsOf(there, name));
      const alike = holder === null || speaksOtherwise(holder, one.number) === speaksOtherwise(holder, other.number);
      if (alike && found !== null)
        leaks.push(`${stage.name}: ${name} is told what others said in world ${other.number}, by ${found}`);
      if (!alike && found === null) blunt.push(`${stage.name}: ${name}, world ${other.number}`);
    }
  });
  return { leaks, blunt };
}

/** What every world has asked: the first one's calls one by one are its own. */
const callsOf = (stage: StageHeard | undefined, viewer: string): readonly Told[] =>
  (stage?.told.get(viewer) ?? []).filter(({ by }) => !by.startsWith(alone));

const alone = 'alone: ';

function firstDifference(one: readonly Told[], other: readonly Told[]): string | null {
  const at = one.findIndex((told, place) => told.text !== other[place]?.text);
  if (at < 0) return one.length === other.length ? null : 'more answers';
  return `${one[at]?.by}\n${apart(one[at]?.text ?? '', other[at]?.text ?? '')}`;
}

/** The first place where two texts part, with what stands around it. */
function apart(one: string, two: string): string {
  let at = 0;
  while (at < one.length && one[at] === two[at]) at += 1;
  const around = (text: string) => text.slice(Math.max(0, at - 80), at + 80);
  return `  ${around(one)}\n  ${around(two)}`;
}

/** What every viewer's socket is told while a stage begins. Outsiders get no socket. */
async function listenWhile(day: BlindDay, stage: BlindStage): Promise<Map<string, readonly Told[]>> {
  const ears = await Promise.all(
    day.viewers.map(async (viewer) => ({ viewer, socket: await listenLive(viewer.client).catch(() => null) })),
  );
  const frames = new Map<string, string[]>(ears.map(({ viewer }) => [viewer.name, []]));
  const ends = ears.flatMap(({ viewer, socket }) => (socket ? [untilLast(socket, frames.get(viewer.name) ?? [])] : []));
  await stage.act(day);
  const { phase } = await day.owner.api.evaluation.get.query({ id: day.id });
  for (const evaluation of [day.id, day.otherId])
    day.server.runtime.hub.announce({
      seat: null,
      event: { evaluation, audience: 'all', phase, version: last, table: null },
    });
  await Promise.all(ends);
  for (const { socket } of ears) socket?.close();
  return new Map(
    ears.map(({ viewer, socket }) => [
      viewer.name,
      [
        { by: 'a socket', text: socket ? 'open' : 'refused' },
        ...(frames.get(viewer.name) ?? []).map((text) => ({ by: 'a frame', text })),
      ],
    ]),
  );
}

/** A version that no bell of the server's bears. */
const last = -1;

/** Resolves when the last bell has come, or the server has cut the socket. */
function untilLast(socket: Socket, frames: string[]): Promise<void> {
  return new Promise((done) => {
    socket.on('changed', (event: { readonly version: number }) =>
      event.version === last ? done() : frames.push(JSON.stringify(event)),
    );
    socket.on('disconnect', () => done());
  });
}

/** Ids drawn from one stream, and from another while something is done aside that other worlds do not do: the first goes on as in them. */
function twoStreams(): Random & { aside<T>(work: () => Promise<T>): Promise<T> } {
  const [main, other] = [seededIds('black box'), seededIds('aside')];
  let present = main;
  return {
    id: () => present.id(),
    token: () => present.token(),
    aside: async (work) => {
      present = other;
      return work().finally(() => {
        present = main;
      });
    },
  };
}

type Asking = {
  readonly known: Readonly<Record<string, unknown>>;
  readonly faults: string[];
  readonly stage: string /** Runs queries one by one as well, where that is asked for. */;
  readonly aside: (<T>(work: () => Promise<T>) => Promise<T>) | null;
};

async function askEverything(day: BlindDay, viewer: Viewer, { known, faults, stage, aside }: Asking): Promise<Told[]> {
  const inputOf = await inputsOf(day, viewer, known);
  const procedures = listProcedures();
  const queries = procedures.filter((one) => one.kind === 'query');
  const told: Told[] = [];
  const codes = new Map<string, string | null>();
  const alongside = aside ?? (<T>(work: () => Promise<T>) => work());
  for (const procedure of aside ? queries : []) {
    const { status, headers, body, code } = await alongside(() =>
      callProcedure(viewer.client, procedure, inputOf(procedure)),
    );
    told.push({ by: alone + procedure.path, text: `${status} ${headers} ${body}` });
    codes.set(procedure.path, code);
  }
  for (const batch of inBatches(procedures)) {
    const calls = batch.map((procedure) => ({ procedure, input: inputOf(procedure) }));
    const kind = batch[0]?.kind ?? 'query';
    const call = () => callBatch(viewer.client, kind, calls);
    const answered = kind === 'query' ? await call() : await withoutTrace(day.server, call);
    told.push({
      by: `a batch of ${batch.map((one) => one.path).join(', ')}`,
      text: `${answered.headers} ${answered.body}`,
    });
    batch.forEach(({ path }, at) =>
      faults.push(
        ...faultsOf(
          {
            path,
            code: answered.codes[at] ?? null,
            alone: aside && kind === 'query' ? (codes.get(path) ?? null) : undefined,
          },
          viewer,
        ).map((fault) => `${stage}: ${viewer.name}, ${path}: ${fault}`),
      ),
    );
  }
  return told;
}

/** Queries whose answer is worked out once and stored. */
const computes = ({ path, kind }: ListedProcedure) => kind === 'query' && /^(board|decision|look|lesson)\./.test(path);

type Answer = {
  readonly path: string;
  readonly code: string | null /** What the same call answered by itself, where it was asked so. */;
  readonly alone: string | null | undefined;
};

/** What a seat may do to its own things, or while they are open; tests/support/whoMay.ts is asked with other seats' things, or none. */
const toItsOwn: ReadonlySet<string> = new Set([
  'person.remove',
  'session.endDevice',
  'session.answerDevice',
  'photo.unpoint',
  'look.answer',
  'look.close',
  'lesson.get',
  'lesson.progress',
]);

function faultsOf({ path, code, alone: byItself }: Answer, { role, holder }: Viewer): string[] {
  const faults: string[] = [];
  if (byItself !== undefined && code !== byItself) faults.push(`in a batch ${code}, alone ${byItself}`);
  if (code === 'unknown') faults.push('an unforeseen fault');
  const may = role === 'owner' || whoMay[path]?.[role] !== undefined || (holder !== null && toItsOwn.has(path));
  if (code === null && !may) faults.push(`answered ${role}, whom it must never answer`);
  return faults;
}

function inBatches(procedures: readonly ListedProcedure[]): ListedProcedure[][] {
  return (['query', 'mutation'] as const).flatMap((kind) => {
    const all = procedures.filter((one) => one.kind === kind);
    return Array.from({ length: Math.ceil(all.length / 15) }, (_, at) => all.slice(at * 15, at * 15 + 15));
  });
}

/** Inputs that exist at this stage: the owner's sound ones, with what is the viewer's own, and what others made, in their place. */
async function inputsOf(
  day: BlindDay,
  { client, holder }: Pick<Viewer, 'client' | 'holder'>,
  known: Readonly<Record<string, unknown>>,
): Promise<(procedure: ListedProcedure) => unknown> {
  const { id, owner, server } = day;
  const view = await owner.api.evaluation.get.query({ id });
  const looks = await owner.api.look.list.query({ id }).catch(() => []);
  const one = (sql: string) => server.runtime.db.$client.prepare(sql).pluck().get() ?? '0'.repeat(32);
  const [from = '0'.repeat(32), to = '1'.repeat(32)] = view.round?.showings.map((showing) => showing.id) ?? [];
  const promised = holder === null ? null : await promiseOf(client, id).catch(() => null);
  const lookId = looks.at(-1)?.id ?? '2'.repeat(32);
  const fields: KnownFields = {
    id,
    evaluationId: id,
    seatId: view.seats.find((seat) => seat.label === 'co-owner')?.id,
    slotId: view.slots[0]?.id,
    puppyId: view.puppies[0]?.id,
    showingId: from,
    subject: from,
    photoId: day.photoId,
    lookId,
    seq: 3,
  };
  const inputs: Readonly<Record<string, unknown>> = {
    ...known,
    'card.lock': { id, ...(promised ?? { nonce: 'a'.repeat(32), commitment: 'b'.repeat(64) }) },
    'card.move': { id, from, to, moveId: '3'.repeat(32) },
    'card.submit': {
      id,
      entries: [
        { id: '4'.repeat(32), subject: from, counter: 9, madeAt: 1, body: { kind: 'manner', manner: 'relaxed' } },
      ],
    },
    'evaluation.moveTable': { id, showingId: from },
    'look.answer': { id, answer: { id: '5'.repeat(32), lookId, choice: 'tie', criterion: null, madeAt: 1 } },
    'look.close': { id, batchId: looks.at(-1)?.batchId ?? '2'.repeat(32) },
    'photo.unpoint': {
      id,
      pointerId: one(
        `SELECT photo_pointer.id FROM photo_pointer JOIN seat ON seat.id = photo_pointer.seat_id WHERE seat.label = 'co-owner' ORDER BY photo_pointer.rowid LIMIT 1`,
      ),
    },
    'session.answerDevice': { requestId: one('SELECT id FROM device_request ORDER BY id DESC LIMIT 1'), letIn: true },
    'session.endDevice': {
      deviceId: one(
        `SELECT device.id FROM device JOIN seat ON seat.id = device.seat_id WHERE seat.label = 'co-owner' AND seat.evaluation_id = '${id}' ORDER BY device.id LIMIT 1`,
      ),
    },
  };
  return ({ path, input }) => inputs[path] ?? (input ? sampleInput(input, fields) : undefined);
}
