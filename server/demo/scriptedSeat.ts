import { createTRPCClient, httpBatchLink, type TRPCClient } from '@trpc/client';
import { io } from 'socket.io-client';
import type { DemoRole } from '#lib/contract/demoView';
import type { Entry } from '#lib/contract/entry';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LiveEvent } from '#lib/contract/liveEvent';
import type { LookView } from '#lib/contract/lookView';
import { entryField } from '#lib/evaluation/entries';
import type { AppRouter } from '../api/router';
import { cardsHash } from '../write/commitCards';
import type { Random } from '../random';
import { type InventedCards, lookPreference } from './inventCards';
import type { ScenarioDay } from './scenario';

export type ScriptedSeatOptions = {
  /** The demo's own listener, and this seat's session there as the browser would send it. */
  readonly url: string;
  readonly cookie: string;
  readonly evaluationId: string;
  readonly role: DemoRole;
  readonly cards: InventedCards;
  readonly choices: ScenarioDay['choices'];
  readonly clock: { now(): number };
  readonly random: Random;
};

export type ScriptedSeat = {
  readonly role: DemoRole;
  readonly api: TRPCClient<AppRouter>;
  /** What this seat sees, asked again after a doorbell. */
  look(): Promise<EvaluationView>;
  /** One move of the hand: a few entries, the lock, or an answer to a second look. False when there was nothing to do. */
  move(entries: number): Promise<boolean>;
  /** Enters everything that is left and locks. */
  finish(): Promise<void>;
  close(): void;
};

type Pending = { readonly place: number; readonly entry: Omit<Entry, 'madeAt'> };
type Memory = {
  view: EvaluationView | null;
  looks: readonly LookView[];
  pending: readonly Pending[] | null;
  stale: boolean;
};

/**
 * A seat played by the table: a client like any telephone, over HTTP and a socket of its own, so that what it may see
 * and do is decided by the same server code as for a person. Refusals and lost links reach the caller as errors.
 */
export function connectScriptedSeat(options: ScriptedSeatOptions): ScriptedSeat {
  const { url, cookie, evaluationId: id, role } = options;
  const headers = { cookie, origin: url };
  const api = createTRPCClient<AppRouter>({ links: [httpBatchLink({ url: `${url}/api/trpc`, headers })] });
  // A manager of its own: one shared by address would carry the first seat's cookie for all.
  const socket = io(url, { transports: ['websocket'], extraHeaders: headers, forceNew: true, reconnectionDelay: 2000 });
  const memory: Memory = { view: null, looks: [], pending: null, stale: true };
  const forget = () => void (memory.stale = true);
  socket.on('connect', forget);
  socket.on('changed', (event: LiveEvent) => {
    if (event.evaluation === id && event.audience === 'all') forget();
  });
  const seat = { options, api, memory };
  return {
    role,
    api,
    look: () => refresh(seat),
    move: async (entries) => {
      try {
        return await move(seat, entries);
      } catch (error) {
        // Most likely the evaluation has moved on: look again before the next move.
        memory.stale = true;
        throw error;
      }
    },
    finish: async () => {
      memory.stale = true;
      const view = await refresh(seat);
      if (!mayScore(view)) return;
      while (memory.pending && memory.pending.length > 0) await send(seat, memory.pending.slice(0, 50));
      await lock(seat, view);
    },
    close: () => void socket.close(),
  };
}

type Seat = { readonly options: ScriptedSeatOptions; readonly api: TRPCClient<AppRouter>; readonly memory: Memory };

async function refresh({ options: { evaluationId: id, ...options }, api, memory }: Seat): Promise<EvaluationView> {
  if (memory.view && !memory.stale) return memory.view;
  // A doorbell that rings while we ask makes the answer stale again.
  memory.stale = false;
  try {
    const view = await api.evaluation.get.query({ id });
    if (memory.pending === null && view.round) memory.pending = await plan({ evaluationId: id, ...options }, view, api);
    memory.looks = view.phase === 'deciding' ? await api.look.list.query({ id }) : [];
    memory.view = view;
    return view;
  } catch (error) {
    memory.stale = true;
    throw error;
  }
}

/** What this seat has still to say; after a restart part of it is on the server already. */
async function plan(
  { evaluationId: id, cards, choices, random }: ScriptedSeatOptions,
  view: EvaluationView,
  api: Seat['api'],
): Promise<Pending[]> {
  const { answers } = await api.card.mine.query({ id });
  const given = new Set(answers.map(({ subject, field }) => `${subject} ${field}`));
  const puppies = new Map(view.puppies.filter((puppy) => !puppy.withdrawn).map((puppy) => [puppy.id, puppy.name]));
  const showings = (view.round?.showings ?? []).flatMap(({ id: subject, puppyId, place }) =>
    (cards.get(puppies.get(puppyId) ?? '') ?? []).map((body) => ({ place, subject, body })),
  );
  const own = choices.flatMap(({ slot, puppy, reason, chance }) => {
    const subject = view.slots[slot]?.id;
    const chosen = [...puppies].find(([, name]) => name === puppy)?.[0];
    return subject === undefined || chosen === undefined
      ? []
      : [{ place: Infinity, subject, body: { kind: 'choice', puppy: chosen, reason, chance } as const }];
  });
  return [...showings, ...own]
    .filter(({ subject, body }) => !given.has(`${subject} ${entryField(body)}`))
    .map(({ place, ...entry }) => ({ place, entry: { ...entry, id: random.id(), counter: 1 } }));
}

const seatState = ({ seats, viewer }: EvaluationView) => seats.find((one) => one.id === viewer.seatId)?.state;

const mayScore = (view: EvaluationView) => view.round?.state === 'open' && seatState(view) === 'joined';

/** The puppies shown so far; the choices once everything else is entered. */
function dueOf({ memory }: Seat, view: EvaluationView): readonly Pending[] {
  if (!mayScore(view) || !memory.pending) return [];
  const { round } = view;
  const onTable = round?.showings.find((showing) => showing.id === round.tableShowingId)?.place;
  const due = memory.pending.filter(({ place }) => onTable === undefined || place <= onTable);
  return due.length > 0 || memory.pending.some(({ place }) => place < Infinity) ? due : memory.pending;
}

async function move(seat: Seat, entries: number): Promise<boolean> {
  const view = await refresh(seat);
  const due = dueOf(seat, view).slice(0, entries);
  if (due.length > 0) await send(seat, due);
  else if (mayScore(view) && seat.memory.pending?.length === 0) await lock(seat, view);
  else return answerOpenLook(seat, view);
  return true;
}

/** Promises the cards as the server shows them to this seat, as a telephone does. */
async function lock({ options: { random }, api }: Seat, { id, viewer: { seatId } }: EvaluationView): Promise<void> {
  const { roundId, answers } = await api.card.mine.query({ id });
  if (roundId === null || seatId === null) throw new Error('there is nothing to lock');
  const nonce = random.id();
  await api.card.lock.mutate({ id, nonce, commitment: cardsHash(nonce, { roundId, seatId, answers }) });
}

async function send({ options, api, memory }: Seat, batch: readonly Pending[]): Promise<void> {
  const madeAt = options.clock.now();
  const outcomes = await api.card.submit.mutate({
    id: options.evaluationId,
    entries: batch.map(({ entry }) => ({ ...entry, madeAt })),
  });
  // Answered is done with, whatever the answer: a refused entry would be refused again.
  const answered = new Set(outcomes.map((outcome) => outcome.id));
  memory.pending = (memory.pending ?? []).filter(({ entry }) => !answered.has(entry.id));
  const refused = outcomes.find((outcome) => outcome.status === 'refused');
  if (refused) throw new Error(`an entry of the scripted ${options.role} was refused: ${refused.code}`);
}

async function answerOpenLook({ options, api, memory }: Seat, view: EvaluationView): Promise<boolean> {
  const look = memory.looks.find((one) => one.state === 'open' && one.mayAnswer && one.own === null);
  if (!look) return false;
  const nameOf = (puppyId: string) => view.puppies.find((puppy) => puppy.id === puppyId)?.name ?? '';
  const preference = lookPreference(options.cards, view.sheet, {
    first: nameOf(look.firstPuppyId),
    second: nameOf(look.secondPuppyId),
  });
  memory.stale = true;
  await api.look.answer.mutate({
    id: view.id,
    answer: { ...preference, id: options.random.id(), lookId: look.id, madeAt: options.clock.now() },
  });
  return true;
}
