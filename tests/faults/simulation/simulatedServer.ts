import type { Answer, EntryOutcome, Entry, SentEntry } from '#lib/contract/entry';
import type { OwnRead } from '#lib/evaluation/outboxState';

/** A seat's own copy of what the server holds: what a fresh load shows, and whether an entry of the seat's would count. */
export type Reading = {
  readonly answers: readonly Answer[];
  readonly all: number;
  readonly own: number;
  readonly round: OwnRead['round'];
};

/** One kept entry, as the history has it. */
export type KeptEntry = {
  readonly entry: Entry;
  readonly seatId: string;
  readonly deviceId: string;
  readonly status: 'applied' | 'superseded' | 'late';
};

/** Who is to hear a doorbell: all, or one seat's devices. */
export type Bell = { readonly seatId: string | null };

/**
 * The server as a schedule meets it. Two of them play the same schedules: one that is pure, made of the rules in lib, and
 * the real commands on a real data file. Calls that the server refuses answer false; nothing else throws.
 */
export type SimulatedServer = {
  submit(
    from: { readonly seatId: string; readonly deviceId: string },
    entries: readonly SentEntry[],
  ): readonly EntryOutcome[];
  /** `shown` are the answers as the locking device shows them. */
  lock(from: { readonly seatId: string; readonly deviceId: string }, shown: readonly Answer[]): boolean;
  close(): boolean;
  reopen(): boolean;
  reveal(): boolean;
  read(seatId: string): Reading;
  /** The server's process dies and comes back. */
  crash(): void;
  /** Its data are copied. */
  backUp(): void;
  /** The last copy takes the place of the data, and its round is closed where nobody can say what came after. Null when nothing was copied, or something has been revealed since. */
  restore(closes: boolean): { readonly round: 'open' | 'closed'; readonly locked: readonly string[] } | null;
  setClock(now: number): void;
  /** Doorbells rung since the last call. */
  takeBells(): readonly Bell[];
  /** Everything kept, in order of arrival, or what was kept after the first `from`. */
  history(from?: number): readonly KeptEntry[];
  /** What the reveal snapshot holds of one seat; null before. */
  snapshot(seatId: string): readonly Answer[] | null;
  end(): void;
};
