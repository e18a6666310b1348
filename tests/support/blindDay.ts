import { createHash } from 'node:crypto';
import { usualPlan, type Plan } from '#lib/contract/plan';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { EntryBody } from '#lib/contract/entry';
import { carefulPicture } from '#lib/photo/measureRatio';
import { promiseOf } from './lockCard';
import { seedQuillmarsh } from './seedQuillmarsh';
import { plainPicture, sendPhoto } from './sendPhoto';
import type { TestServer } from './startTestServer';
import { testClient, type TestClient } from './testClient';
import type { Role } from './whoMay';

/** Who says what others must not see yet. `assistant before` is the device that the assistant's seat lost when it was issued anew. */
export const holders = ['breeder', 'mentor', 'photographer', 'co-owner', 'assistant', 'assistant before'] as const;
export type Holder = (typeof holders)[number];

/**
 * Four worlds: whether a holder says other things in one is a bit of its number, so that of any two holders one speaks alike in
 * two worlds in which the other does not. Whoever reads the first alone must be told the same in both.
 */
export const worlds = [0, 1, 2, 3] as const;
export type WorldNumber = (typeof worlds)[number];
export const speaksOtherwise = (holder: Holder, world: WorldNumber): boolean =>
  world > 0 && (((holders.indexOf(holder) + 1) >> (world - 1)) & 1) === 1;

/** `holder` is whose answers it may read as its own. Outsiders are told nothing at any stage. */
export type Viewer = {
  readonly name: string;
  readonly client: TestClient;
  readonly holder: Holder | null;
  readonly role: Role | 'owner';
  readonly inside: boolean;
};

export type DayKind = {
  readonly medium?: 'table' | 'photographs';
  readonly plan?: Partial<Plan>;
  readonly lesson?: boolean;
};

export type BlindDay = {
  readonly server: TestServer;
  readonly id: string;
  readonly otherId: string;
  readonly owner: TestClient;
  /** Who speaks, by holder; a seat that is issued anew changes its client. */
  readonly clients: Map<Holder, TestClient>;
  readonly viewers: Viewer[];
  readonly photoId: string;
  /** What has been said and not been told, with whose it is. */
  readonly hidden: { readonly holder: Holder; readonly text: string }[];
  /** What outsiders never hear: all of the above, that which has been told with it. */
  readonly said: { readonly holder: Holder; readonly text: string }[];
  /** Says the same as ever, or otherwise where its words and scores differ in this world. */
  voice(holder: Holder): Voice;
  /** From now on voices may differ, in words that were not used before: what is said before is the same in every world. */
  begin(): void;
};

type Voice = {
  readonly other: boolean;
  readonly place: number;
  readonly word: string;
  readonly x: number;
  readonly chance: number;
  readonly id: () => string;
};

const none = { kind: 'none', leads: false, picks: false, interest: '' } as const;

/**
 * A day with a viewer of every kind, joined through the API. In another world some holders say other things: other scores,
 * other words of another length.
 */
export async function seedBlindDay(
  server: TestServer,
  world: WorldNumber,
  { medium = 'table', plan = {}, lesson = false }: DayKind,
): Promise<BlindDay> {
  const owner = await server.owner();
  const { id, seats } = await seedQuillmarsh(owner, { puppies: 3, medium, ...(lesson ? { panel: ['co-owner'] } : {}) });
  const clients = new Map<Holder, TestClient>([['breeder', owner]]);
  for (const label of ['mentor', 'photographer', 'co-owner'] as const)
    if (seats[label]) clients.set(label, seats[label]);
  const joins = async (seat: Parameters<TestClient['api']['setup']['saveSeat']['mutate']>[0]['seat']) => {
    const { id: seatId } = await owner.api.setup.saveSeat.mutate({ id, seatId: null, seat });
    const client = server.stranger();
    await client.api.session.join.mutate({ token: (await owner.api.setup.invite.mutate({ id, seatId })).token });
    return client;
  };
  if (!lesson) clients.set('assistant before', await joins({ ...none, kind: 'hands', label: 'assistant' }));
  const others = {
    secretary: await joins({ ...none, label: 'secretary', organises: true }),
    friend: await joins({ ...none, label: 'friend', reads: true }),
    bystander: await joins({ ...none, label: 'at the table' }),
  };
  await agree(owner, id, { ...plan, ...(lesson ? { kind: 'lesson' } : {}) });
  const puppy = (await owner.api.evaluation.get.query({ id })).puppies[0]?.id ?? '';
  const photoId =
    (await sendPhoto(owner, { evaluation: id, puppy, bytes: await plainPicture(), id: 'f'.repeat(32) })).id ?? '';
  const other = await seedQuillmarsh(owner, { puppies: 1, panel: ['co-owner'] });
  const viewers = await gatherViewers(server, { owner, clients, others, guest: other.seats['co-owner'] });
  let chapter = 0;
  const drawn = new Map<Holder, number>();
  const voice = (holder: Holder): Voice => {
    const place = holders.indexOf(holder);
    const otherwise = chapter > 0 && speaksOtherwise(holder, world);
    const next = () => drawn.set(holder, (drawn.get(holder) ?? 0) + 1).get(holder);
    return {
      other: otherwise,
      place,
      word: otherwise ? `medlar${place}${chapter}z of quite another length` : `quince${place}${chapter}z`,
      x: Number(`0.1${place}${chapter}${otherwise ? 931 : 372}`),
      chance: otherwise ? 91 + place : 71 + place,
      id: () => createHash('sha256').update(`${holder} ${otherwise} ${next()}`).digest('hex').slice(0, 32),
    };
  };
  const begin = () => {
    chapter += 1;
  };
  return { server, id, otherId: other.id, owner, clients, viewers, photoId, hidden: [], said: [], voice, begin };
}

async function agree(owner: TestClient, id: string, plan: Partial<Plan>): Promise<void> {
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order, seats, slots } =
    await owner.api.setup.get.query({ id });
  const learnerSeatId = plan.kind === 'lesson' ? (seats.find((seat) => seat.owner)?.id ?? null) : null;
  const terms = slots.map(({ taker, seatId, purpose, sex, condition, byWhen, ifFails }) => ({
    taker,
    seatId,
    purpose,
    sex,
    condition,
    byWhen,
    ifFails,
  }));
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots: terms,
    order,
    plan: { ...usualPlan, ...plan, learnerSeatId },
  });
}

type People = {
  readonly owner: TestClient;
  readonly clients: ReadonlyMap<Holder, TestClient>;
  readonly others: Readonly<Record<'secretary' | 'friend' | 'bystander', TestClient>>;
  readonly guest: TestClient | undefined;
};

async function gatherViewers(server: TestServer, { owner, clients, others, guest }: People): Promise<Viewer[]> {
  const role = (holder: Holder): Viewer['role'] =>
    holder === 'breeder' ? 'owner' : holder === 'co-owner' ? 'picker' : 'seat';
  const speakers = [...clients].map(
    ([holder, client]): Viewer => ({ name: holder, client, holder, role: role(holder), inside: true }),
  );
  const first = clients.has('mentor') ? 'mentor' : 'co-owner';
  const letsIn = clients.get(first) ?? owner;
  const gone = await further(server, letsIn);
  const cookie = gone.cookie();
  await gone.api.session.leave.mutate();
  const [ofOwner, ofSeat] = [await further(server, owner), await further(server, letsIn)];
  const waiting = server.stranger();
  await waiting.api.session.joinByCode.mutate({ code: (await letsIn.api.session.furtherCode.mutate()).code });
  const outside = (name: string, client: TestClient, as: Role = 'stranger'): Viewer => ({
    name,
    client,
    holder: null,
    role: as,
    inside: false,
  });
  return [
    ...speakers,
    { name: 'the owner’s further device', client: ofOwner, holder: 'breeder', role: 'owner', inside: true },
    { name: `a further device of ${first}`, client: ofSeat, holder: first, role: role(first), inside: true },
    { name: 'organiser', client: others.secretary, holder: null, role: 'organiser', inside: true },
    { name: 'reader', client: others.friend, holder: null, role: 'reader', inside: true },
    { name: 'bystander', client: others.bystander, holder: null, role: 'bystander', inside: true },
    outside('stranger', server.stranger()),
    outside('a device that signed out', testClient(server.url, cookie)),
    outside('a device that waits to be let in', waiting),
    outside(
      'a visitor of the demo',
      testClient(server.url, `evenstack_demo=${owner.cookie().split('=')[1]}`),
      'visitor',
    ),
    outside('a seat of another evaluation', guest ?? server.stranger(), 'guest'),
  ];
}

/** Another device of the same person, by a code and let in by the first. */
async function further(server: TestServer, first: TestClient): Promise<TestClient> {
  const client = server.stranger();
  await client.api.session.joinByCode.mutate({ code: (await first.api.session.furtherCode.mutate()).code });
  await first.api.session.answerDevice.mutate({
    requestId: (await first.api.session.devices.query()).asking[0]?.id ?? '',
    letIn: true,
  });
  return client;
}

/** The owner gives the assistant's seat a new link, and another device takes it. */
export async function issueAnew({ server, id, owner, clients, viewers }: BlindDay): Promise<void> {
  const seatId =
    (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'assistant')?.id ?? '';
  const client = server.stranger();
  await client.api.session.join.mutate({ token: (await owner.api.setup.reissue.mutate({ id, seatId })).token });
  clients.set('assistant', client);
  clients.delete('assistant before');
  const at = viewers.findIndex((viewer) => viewer.name === 'assistant before');
  const [before] = viewers.splice(at, 1, {
    name: 'assistant, by the new device',
    client,
    holder: 'assistant',
    role: 'seat',
    inside: true,
  });
  if (!before) throw new Error('the assistant has no device');
  viewers.push({ ...before, name: 'the assistant’s lost device', holder: null, role: 'stranger', inside: false });
}

function hide({ hidden, said }: BlindDay, holder: Holder, texts: readonly string[]): void {
  for (const text of texts) {
    hidden.push({ holder, text });
    said.push({ holder, text });
  }
}

const clientOf = ({ clients }: BlindDay, holder: Holder): TestClient => {
  const client = clients.get(holder);
  if (!client) throw new Error(`nobody speaks as ${holder}`);
  return client;
};

/** One holder's whole card: every score, a check, notes, an overall and a choice, the same in number and kind whatever they say. */
export async function fillCard(day: BlindDay, holder: Holder, asked: 'all' | 'scores' = 'all'): Promise<void> {
  const client = clientOf(day, holder);
  const view = await client.api.evaluation.get.query({ id: day.id });
  const voice = day.voice(holder);
  const bodies = cardBodies(view, voice, asked);
  const entries = bodies.map(([subject, body]) => ({ id: voice.id(), subject, counter: 1, madeAt: 1, body }));
  for (let from = 0; from < entries.length; from += 50) {
    const outcomes = await client.api.card.submit.mutate({ id: day.id, entries: entries.slice(from, from + 50) });
    const refused = outcomes.find((outcome) => outcome.status === 'refused');
    if (refused) throw new Error(`${holder}: an entry was refused: ${refused.code}`);
  }
  hide(day, holder, [voice.word, ...entries.map((entry) => entry.id)]);
}

function cardBodies(view: EvaluationView, voice: Voice, asked: 'all' | 'scores'): [string, EntryBody][] {
  const kind = view.seats.find((seat) => seat.id === view.viewer.seatId)?.kind;
  const step = (criterion: number, puppy: number) =>
    voice.other ? (voice.place + 3 * criterion + 5 * puppy + 3) % 7 : (voice.place + 2 * criterion + 3 * puppy) % 7;
  const cells = new Set((view.round?.cells ?? []).map(({ puppyId, criterion }) => `${puppyId} ${criterion}`));
  const showings = view.round?.showings ?? [];
  const scores = showings.flatMap((showing, puppy) =>
    view.sheet.criteria
      .map((criterion, at) => ({ criterion, at }))
      .filter(
        ({ criterion }) =>
          (kind === 'hands' || !criterion.handsOnly) &&
          (cells.size === 0 || cells.has(`${showing.puppyId} ${criterion.key}`)),
      )
      .map(({ criterion, at }): [string, EntryBody] => {
        const unseen = voice.other && at === 0 && puppy === 0 && cells.size === 0;
        return [
          showing.id,
          {
            kind: 'score',
            criterion: criterion.key,
            value: unseen ? null : step(at, puppy) + (criterion.twoSided ? -3 : 1),
            cannotJudge: unseen,
          },
        ];
      }),
  );
  const notes = showings.map((showing): [string, EntryBody] => [
    showing.id,
    { kind: 'note', criterion: null, text: voice.word },
  ]);
  if (asked === 'scores') return [...scores, ...notes];
  const rest = showings.flatMap((showing, puppy): [string, EntryBody][] => [
    [showing.id, { kind: 'overall', value: step(11, puppy) + 1, cannotJudge: false }],
    [showing.id, { kind: 'fair', fair: !voice.other, why: voice.word }],
    [showing.id, { kind: 'manner', manner: voice.other ? 'tense' : 'relaxed' }],
    [
      showing.id,
      { kind: 'check', check: 'breathing', answer: voice.other ? 'not-examined' : 'quiet', detail: voice.word },
    ],
  ]);
  const [slot] = view.slots;
  const fitting = view.puppies.filter((puppy) => slot?.sex === 'any' || slot?.sex === puppy.sex);
  const puppy = fitting[voice.other ? fitting.length - 1 : 0]?.id ?? null;
  return [
    ...scores,
    ...notes,
    ...rest,
    ...(slot
      ? [[slot.id, { kind: 'choice', puppy, reason: voice.word, chance: voice.chance }] satisfies [string, EntryBody]]
      : []),
  ];
}

/** A pointer with words on a picture, and a measurement. */
export async function markPicture(day: BlindDay, holder: Holder): Promise<void> {
  const { api } = clientOf(day, holder);
  const { word, x, id } = day.voice(holder);
  const [pointerId, measurementId] = [id(), id()];
  await api.photo.point.mutate({
    id: day.id,
    photoId: day.photoId,
    pointerId,
    pointer: { kind: 'arrow', from: { x, y: 0.25 }, to: { x: 0.5, y: 0.5 }, note: word },
  });
  const placing = { nose: { x, y: 0.3 }, stop: { x: 0.6, y: 0.4 }, occiput: { x: 0.9, y: 0.4 } };
  await api.photo.measure.mutate({
    id: day.id,
    photoId: day.photoId,
    measurementId,
    measurement: { ratio: 'muzzle-skull', placing, sizeMillimetres: 130, setting: carefulPicture },
  });
  hide(day, holder, [word, String(x), pointerId, measurementId]);
}

/** A note of the talk; a hand goes up in the one world and not in the other. */
export async function speak(day: BlindDay, holder: Holder): Promise<void> {
  const { api } = clientOf(day, holder);
  const { word, other, id } = day.voice(holder);
  const view = await api.evaluation.get.query({ id: day.id });
  const noteId = id();
  await api.board.addNote.mutate({
    id: day.id,
    noteId,
    slotId: null,
    puppyId: view.puppies[0]?.id ?? null,
    otherPuppyId: null,
    criterion: null,
    text: word,
  });
  // One call in either world: every refusal's id is drawn, and follows in a test from how many calls there were.
  if (other) await api.board.askToSpeak.mutate({ id: day.id, seatId: view.viewer.seatId ?? '', up: true });
  else await api.board.hands.query({ id: day.id });
  hide(day, holder, [word, noteId]);
}

/** A seat's practice; only its own reads it while nobody else has locked one. */
export async function practise(day: BlindDay, holder: Holder): Promise<void> {
  const { api } = clientOf(day, holder);
  const { criteria } = await api.practice.get.query({ id: day.id });
  await api.practice.lock.mutate({
    id: day.id,
    answers: criteria.map((criterion, at) => ({
      picture: 'first',
      criterion,
      value: (at % 2) + (day.voice(holder).other ? 2 : 1),
    })),
  });
}

/** The promise of a lock is published when the round closes; its nonce not before the reveal. */
export async function lock(day: BlindDay, holder: Holder): Promise<void> {
  const client = clientOf(day, holder);
  const nonce = day.voice(holder).id();
  await client.api.card.lock.mutate({ id: day.id, ...(await promiseOf(client, day.id, nonce)) });
  hide(day, holder, [nonce]);
}

export async function answerLook(day: BlindDay, holder: Holder, lookId: string): Promise<void> {
  const { api } = clientOf(day, holder);
  const { other, id } = day.voice(holder);
  const answerId = id();
  const criterion = (await api.evaluation.get.query({ id: day.id })).sheet.criteria[0]?.key ?? null;
  await api.look.answer.mutate({
    id: day.id,
    answer: {
      id: answerId,
      lookId,
      choice: other ? 'second' : 'first',
      criterion: other ? criterion : null,
      madeAt: 1,
    },
  });
  hide(day, holder, [answerId]);
}

/** A note that comes when its round has closed: kept as late, and told after the reveal. */
export async function comeLate(day: BlindDay, holder: Holder): Promise<void> {
  const { api } = clientOf(day, holder);
  const { word, id } = day.voice(holder);
  const subject = (await api.evaluation.get.query({ id: day.id })).round?.showings[0]?.id ?? '';
  const entryId = id();
  const [outcome] = await api.card.submit.mutate({
    id: day.id,
    entries: [
      { id: entryId, subject, counter: 9, madeAt: 1, body: { kind: 'note', criterion: null, text: `late ${word}` } },
    ],
  });
  if (outcome?.status !== 'late') throw new Error(`a late note was ${outcome?.status}`);
  hide(day, holder, [entryId]);
}

/** Everything said so far is told to who may read it. */
export function tell({ hidden }: BlindDay): void {
  hidden.splice(0);
}
