import type { ScriptedSeat } from './scriptedSeat';

export type Pace = {
  /** Between two moves of a cast. Each move is one seat's. */
  readonly beatMilliseconds: number;
  readonly entriesAMove: number;
  /** How many beats a scripted table leader waits for the visitor before the next puppy. */
  readonly patienceBeats: number;
};

/** Slow enough to watch: two entries in a second and a half, from one seat after the other. */
export const humanPace: Pace = { beatMilliseconds: 1500, entriesAMove: 2, patienceBeats: 30 };

export type Cast = {
  /** One seat makes one move. Does nothing while a move or a finish is under way. */
  beat(): Promise<void>;
  /** Every scripted seat enters what is left and locks. */
  finish(): Promise<void>;
  /** The scripted owner closes what is still open and reveals; false when the owner is the visitor. */
  reveal(): Promise<boolean>;
  close(): Promise<void>;
};

type CastOptions = {
  readonly connect: () => readonly ScriptedSeat[];
  readonly pace: Pace;
  readonly failed: (error: unknown) => void;
};

/** The scripted seats of one copy. They sit down with the first move and leave when the cast is closed. */
export function createCast({ connect, pace, failed }: CastOptions): Cast {
  let seats: readonly ScriptedSeat[] | null = null;
  let underWay: Promise<unknown> | null = null;
  const table: Table = { turn: 0, quiet: 0 };

  /** One thing at a time: a finish waits for the move before it. */
  const alone = <T>(work: (seated: readonly ScriptedSeat[]) => Promise<T>): Promise<T> => {
    seats ??= connect();
    const seated = seats;
    const mine = (underWay ?? Promise.resolve()).then(() => work(seated));
    const settled = mine.then(
      () => undefined,
      () => undefined,
    );
    underWay = settled;
    void settled.then(() => {
      if (underWay === settled) underWay = null;
    });
    return mine;
  };

  return {
    beat: async () => {
      // A refusal is the evaluation having moved on; the next beat looks again.
      if (!underWay) await alone((seated) => makeMove(seated, table, pace)).catch(failed);
    },
    finish: () =>
      alone(async (seated) => {
        for (const seat of seated) await seat.finish();
      }),
    reveal: () => alone(revealAsOwner),
    close: async () => {
      const leaving = seats ?? [];
      seats = null;
      await underWay;
      for (const seat of leaving) seat.close();
    },
  };
}

/** Whose turn it was, and for how many moves nobody had anything to do. */
type Table = { turn: number; quiet: number };

const ownerOf = (seated: readonly ScriptedSeat[]) => seated.find((one) => one.role === 'breeder');

async function makeMove(seated: readonly ScriptedSeat[], table: Table, pace: Pace): Promise<void> {
  table.turn += 1;
  const seat = seated[table.turn % seated.length];
  if (!seat) return;
  table.quiet = (await seat.move(pace.entriesAMove)) ? 0 : table.quiet + 1;
  const owner = ownerOf(seated);
  if (!owner) return;
  const { id, round } = await owner.look();
  if (round?.state === 'closed') await owner.api.evaluation.revealRound.mutate({ id });
  if (round?.state !== 'open' || table.quiet < pace.patienceBeats) return;
  const next = round.showings[round.showings.findIndex((showing) => showing.id === round.tableShowingId) + 1];
  if (!next) return;
  await owner.api.evaluation.moveTable.mutate({ id, showingId: next.id });
  table.quiet = 0;
}

async function revealAsOwner(seated: readonly ScriptedSeat[]): Promise<boolean> {
  const owner = ownerOf(seated);
  if (!owner) return false;
  const { id } = await owner.look();
  const { round } = await owner.api.evaluation.get.query({ id });
  if (round?.state === 'open') await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
  return true;
}
