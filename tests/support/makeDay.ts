import { type Db, open } from '#db/open';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { insertDevice } from '#db/queries/devices';
import { saveLitter } from '#db/queries/litters';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { noBackups } from '#server/backup/backups';
import { builtInSheetIds, createEvaluation, seedSheets } from '#server/commands/setup';
import { openRound } from '#server/commands/rounds';
import { saveLitterPuppy } from '#server/commands/litters';
import { savePanelSeat } from '#server/commands/seats';
import { createHub } from '#server/live/hub';
import { hashToken } from '#server/random';
import type { Runtime } from '#server/runtime';
import type { Reconciler } from '#server/work/reconciler';
import type { Asker } from '#server/write/writeEvaluation';
import { quillmarshPuppies } from './seedQuillmarsh';
import { seededIds } from './seededIds';

export type DayDevice = { readonly id: string; readonly seatId: string; readonly secret: string };

/** An evaluation with its first round open, made by the commands alone: no server, no statistics. */
export type Day = { readonly facts: EvaluationFacts; readonly devices: readonly DayDevice[] };

export type DaySize = {
  /** Seats beside the owner's own. */
  readonly seats?: number;
  readonly devicesPerSeat?: number;
  readonly puppies?: number;
  /** False leaves the round to be opened. */
  readonly opened?: boolean;
};

/** Whoever asks for statistics here has lost the way. */
const noStatistics: Reconciler = {
  reconcile: () => Promise.reject(new Error('no statistics here')),
  agreement: () => Promise.reject(new Error('no statistics here')),
  profile: () => Promise.reject(new Error('no statistics here')),
  questions: () => Promise.reject(new Error('no statistics here')),
  looks: () => Promise.reject(new Error('no statistics here')),
  robustness: () => Promise.reject(new Error('no statistics here')),
  close: async () => undefined,
};

/** The commands' surroundings over one data file. */
export function dayRuntime(db: Db, around: Partial<Omit<Runtime, 'db'>> = {}): Runtime {
  return {
    clock: { now: () => 1_789_000_000_000 },
    random: seededIds('day'),
    hub: createHub(),
    reconciler: noStatistics,
    backups: noBackups,
    demo: null,
    ...around,
    db,
  };
}

/** The owner as she asks, without a session: for what is made before anybody sits. */
const ownerOf = (runtime: Runtime): Asker => ({ runtime, device: { id: '', owner: true, seatId: null } });

/** A device of the day as it asks. */
export function askerOf(runtime: Runtime, { facts }: Day, { id, seatId }: Pick<DayDevice, 'id' | 'seatId'>): Asker {
  const owner = facts.seats.some((seat) => seat.id === seatId && seat.owner);
  return { runtime, device: { id, owner, seatId: owner ? null : seatId } };
}

/** Fills an open, empty data file; the first devices in the list are the owner's. */
export function makeDay(
  runtime: Runtime,
  { seats = 2, devicesPerSeat = 2, puppies = 3, opened = true }: DaySize = {},
): Day {
  const { db, random } = runtime;
  seedSheets(runtime);
  const litterId = random.id();
  saveLitter(db, {
    id: litterId,
    name: 'Quillmarsh autumn',
    breed: 'Leonberger',
    dam: '',
    sire: '',
    whelpedOn: '2026-07-18',
    createdAt: runtime.clock.now(),
  });
  for (const puppy of quillmarshPuppies.slice(0, puppies))
    saveLitterPuppy(runtime, { litterId, puppyId: null, puppy: { ...puppy, chipDigits: '' } });
  const input = {
    name: 'Eight weeks',
    heldOn: '2026-09-12',
    medium: 'table',
    callLink: '',
    callNumber: '',
    tableNote: '',
  } as const;
  const evaluationId = createEvaluation(runtime, { litterId, sheetId: builtInSheetIds.short, input });
  for (let place = 1; place <= seats; place += 1) {
    savePanelSeat(ownerOf(runtime), {
      evaluationId,
      seatId: null,
      input: { label: `evaluator ${place}`, kind: 'hands', leads: false, picks: false, interest: '' },
    });
  }
  const devices = getEvaluationFacts(db, evaluationId).seats.flatMap((seat) =>
    Array.from({ length: devicesPerSeat }, () => {
      const [id, secret] = [random.id(), random.token()];
      const holder = seat.owner ? { owner: true, seatId: null } : { owner: false, seatId: seat.id };
      // One generation: a further device of the same seat, not a seat issued again.
      insertDevice(db, { ...holder, id, tokenHash: hashToken(secret), createdAt: runtime.clock.now(), generation: 1 });
      return { id, seatId: seat.id, secret };
    }),
  );
  if (opened) openRound(runtime, { evaluationId, unconfirmed: true });
  return { facts: getEvaluationFacts(db, evaluationId), devices };
}

/** A fresh data file with a day in it, closed again. A server that runs by today's clock takes sessions made `now`. */
export function makeDayFile(file: string, size: DaySize = {}, now = 1_789_000_000_000): Day {
  const db = open(file);
  try {
    return makeDay(dayRuntime(db, { clock: { now: () => now } }), size);
  } finally {
    db.$client.close();
  }
}
