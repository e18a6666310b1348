import type { Answer, Entry, EntryOutcome, SentEntry } from '../contract/entry';
import { entryField } from './entries';

/**
 * What a device holds of its own entries, as a pure machine: the shell around it stores, sends, and tells the time.
 * waiting: not yet answered by the server. applied: acknowledged, so on the server's disk (SC1); kept here until the round
 * is revealed, because a server restored from a backup may lack it. late, superseded, refused: answered, and kept until
 * the person has put the notice away.
 */
export type RowStatus = 'waiting' | 'applied' | 'superseded' | 'late' | 'refused';

export type OutboxRow = {
  readonly entry: Entry;
  readonly evaluationId: string;
  readonly roundId: string;
  readonly seatId: string;
  readonly status: RowStatus;
  readonly code: string | null;
  /** pending: being written on this device, not sent before that is settled. memory: could not be written. */
  readonly kept: 'pending' | 'disk' | 'memory';
  /** True once a read of the seat's own answers has shown it. */
  readonly shown?: boolean;
  /** True once the server, which had acknowledged it, lacked it: it is sent again, and marked so on the way. */
  readonly again?: boolean;
};

export type OutboxState = {
  /** What lies over the seat's own answers as read, in the order it was made. */
  readonly rows: readonly OutboxRow[];
  /** Acknowledged and shown by a read, so no longer laid over it: at most one a register, the newest. */
  readonly held: readonly OutboxRow[];
  /** Acknowledged, and not in the last read: if the next lacks them as well, the server has lost them. */
  readonly doubted: readonly string[];
  /** When the last read laid under the rows was made. */
  readonly readAt: number;
  /** Whether the server would take what it has lost: not while the round is closed or the card locked, where it could only be late. */
  readonly takesAgain: boolean;
  /** Ids in the call under way; empty when none is. */
  readonly sending: readonly string[];
  /** Start of the first call since the last answer: null while the server answers. */
  readonly unansweredSince: number | null;
  readonly failures: number;
  readonly retryAt: number;
  /** After a whole batch was refused as faulty: one entry at a time, so that one cannot hold up the rest. */
  readonly single: boolean;
  /** Why the server refuses whole calls; null while it does not. */
  readonly refusal: string | null;
};

export const emptyOutbox: OutboxState = {
  rows: [],
  held: [],
  doubted: [],
  readAt: 0,
  takesAgain: false,
  sending: [],
  unansweredSince: null,
  failures: 0,
  retryAt: 0,
  single: false,
  refusal: null,
};

const batchLimit = 50;
const firstDelayMs = 1000;
const longestDelayMs = 30_000;

/**
 * Adds a row made here, or rows read back from the device. A row known already keeps what was learnt about it since; one
 * that waits takes over what another page of this device has learnt.
 */
export function addRows(state: OutboxState, rows: readonly OutboxRow[]): OutboxState {
  const known = new Set([...state.rows, ...state.held].map((row) => row.entry.id));
  const answered = new Map(rows.filter((row) => row.status !== 'waiting').map((row) => [row.entry.id, row]));
  const fresh = rows.filter((row) => !known.has(row.entry.id));
  // What the server has lost waits again until it is answered again: its first answer, still on disk, says nothing more.
  const learns = ({ entry, status, again }: OutboxRow) =>
    status === 'waiting' && answered.has(entry.id) && (again !== true || answered.get(entry.id)?.again === true);
  if (fresh.length === 0 && !state.rows.some(learns)) return state;
  const learnt = state.rows.map((row) => (learns(row) ? (answered.get(row.entry.id) ?? row) : row));
  return splitShown(state, [...learnt, ...fresh]);
}

/** Rows that a read has shown lie beside the others. */
function splitShown(state: OutboxState, rows: readonly OutboxRow[]): OutboxState {
  const isHeld = (row: OutboxRow) => row.status === 'applied' && row.shown === true;
  return {
    ...state,
    rows: rows.filter((row) => !isHeld(row)),
    held: newestOfRegisters([...state.held, ...rows.filter(isHeld)]),
  };
}

function newestOfRegisters(rows: readonly OutboxRow[]): readonly OutboxRow[] {
  const newest = new Map<string, OutboxRow>();
  for (const row of rows) {
    const key = `${row.roundId} ${registerOfRow(row)}`;
    const before = newest.get(key)?.entry;
    // Another page of this device may have counted alike: as on the server, its clock tells which came later.
    if (
      !before ||
      row.entry.counter > before.counter ||
      (row.entry.counter === before.counter && row.entry.madeAt > before.madeAt)
    )
      newest.set(key, row);
  }
  return rows.length === newest.size ? rows : [...newest.values()];
}

/** The device has answered whether rows are written. What once was on the disk stays there when a later write fails. */
export function settleRows(state: OutboxState, ids: readonly string[], kept: 'disk' | 'memory'): OutboxState {
  const settled = new Set(ids);
  const settle = (row: OutboxRow) =>
    settled.has(row.entry.id) && row.kept !== kept && row.kept !== 'disk' ? { ...row, kept } : row;
  return { ...state, rows: state.rows.map(settle), held: state.held.map(settle) };
}

export function waitingRows(state: OutboxState): readonly OutboxRow[] {
  return state.rows.filter((row) => row.status === 'waiting');
}

/** What to send now, in the order it was made: nothing while a call is under way, before its time, or behind a row still being written. */
export function nextBatch(state: OutboxState, now: number): readonly SentEntry[] {
  if (state.sending.length > 0 || now < state.retryAt) return [];
  const waiting = waitingRows(state).filter((row) => row.again !== true || state.takesAgain);
  const unsettled = waiting.findIndex((row) => row.kept === 'pending');
  const ready = unsettled < 0 ? waiting : waiting.slice(0, unsettled);
  return ready
    .slice(0, state.single ? 1 : batchLimit)
    .map((row) => (row.again === true ? { ...row.entry, again: true } : row.entry));
}

export function startSending(state: OutboxState, ids: readonly string[], now: number): OutboxState {
  return { ...state, sending: ids, unansweredSince: state.unansweredSince ?? now };
}

/** No call is under way, whatever was thought: what it held waits for the next one. */
export function stopSending(state: OutboxState): OutboxState {
  return { ...state, sending: [] };
}

/** The server's answer, entry by entry; an entry it did not mention goes on waiting. */
export function settleBatch(state: OutboxState, outcomes: readonly EntryOutcome[]): OutboxState {
  const byId = new Map(outcomes.map((outcome) => [outcome.id, outcome]));
  const rows = state.rows.map((row) => {
    const outcome = byId.get(row.entry.id);
    return outcome && row.status === 'waiting' ? { ...row, status: outcome.status, code: outcome.code } : row;
  });
  return {
    ...state,
    rows,
    sending: [],
    unansweredSince: null,
    failures: 0,
    retryAt: 0,
    refusal: null,
    single: state.single && rows.some((row) => row.status === 'waiting'),
  };
}

/** `code` is the server's word for refusing the call, null when no answer came; `spread` in 0..1 keeps devices from calling in step. */
export type Failure = { readonly now: number; readonly code: string | null; readonly spread: number };

/** A call failed: wait 1, 2, 4 … 30 s. A faulty batch is taken apart; a single faulty entry is refused for good and shown. */
export function failBatch(state: OutboxState, { now, code, spread }: Failure): OutboxState {
  const answered = code !== null;
  const rest = { ...state, sending: [], unansweredSince: answered ? null : state.unansweredSince };
  if (code === 'bad-input') {
    if (state.sending.length > 1) return { ...rest, single: true };
    const rows = state.rows.map((row) =>
      state.sending.includes(row.entry.id) ? { ...row, status: 'refused' as const, code } : row,
    );
    return { ...rest, rows };
  }
  const failures = state.failures + 1;
  const delay = Math.min(longestDelayMs, firstDelayMs * 2 ** Math.min(failures - 1, 10));
  return { ...rest, failures, retryAt: now + delay * (1 - 0.25 * spread), refusal: code };
}

/** Something suggests that the link is back: try at once. */
export function nudge(state: OutboxState): OutboxState {
  return state.retryAt === 0 ? state : { ...state, retryAt: 0 };
}

/** Forgets a notice that was read. A waiting row stays: it is nowhere else. An acknowledged one stays until the reveal. */
export function putAway(state: OutboxState, id: string): OutboxState {
  return {
    ...state,
    rows: state.rows.filter((row) => row.entry.id !== id || row.status === 'waiting' || row.status === 'applied'),
  };
}

/** The seat's own answers as the server has them now, and what becomes of entries for their round. */
export type OwnRead = {
  readonly roundId: string;
  readonly answers: readonly Answer[];
  readonly at: number;
  /** open: entries count. shut: the round is closed or the card locked, which may be undone. revealed: for good. */
  readonly round: 'open' | 'shut' | 'revealed';
  /** True in a second round: those before it are revealed, and what was kept of them is needed no more. */
  readonly later: boolean;
};

/**
 * Lays a read under the rows. What it shows is no longer laid over it, but held until the reveal. What it lacks although
 * it was acknowledged is doubted, since that read may be older than the acknowledgement; when the next one lacks it too,
 * the server has lost it, and it waits again. One that the server has then acknowledged anew and still shows to nobody
 * here (an edit of another issue of the seat stands) is let go.
 */
export function absorbRead(state: OutboxState, read: OwnRead): OutboxState {
  const counters = new Map(read.answers.map((answer) => [registerOf(answer.subject, answer.field), answer.counter]));
  const fresh = read.at !== state.readAt;
  const doubted = new Set(state.doubted);
  const lacks = (row: OutboxRow) =>
    row.roundId !== read.roundId || (counters.get(registerOfRow(row)) ?? 0) < row.entry.counter;
  const over = (row: OutboxRow) => (row.roundId === read.roundId ? read.round === 'revealed' : read.later);
  const absorb = (row: OutboxRow): readonly OutboxRow[] => {
    if (row.status !== 'applied') return [row];
    if (!lacks(row))
      return over(row) ? [] : [row.shown === true && row.again !== true ? row : { ...row, shown: true, again: false }];
    if (row.roundId !== read.roundId && over(row)) return [];
    if (!fresh || !doubted.has(row.entry.id)) return [row];
    return row.again === true ? [] : [{ ...row, status: 'waiting', shown: false, again: true }];
  };
  const before = [...state.held, ...state.rows];
  const rows = before.flatMap(absorb);
  const doubts = fresh
    ? rows.filter((row) => row.status === 'applied' && lacks(row)).map((row) => row.entry.id)
    : state.doubted;
  const next = { ...state, doubted: doubts, readAt: read.at, takesAgain: read.round !== 'shut' };
  return rows.length === before.length && rows.every((row, index) => row === before[index])
    ? next
    : splitShown({ ...next, held: [] }, rows);
}

/** One subject and one field hold one answer of a seat. */
export function registerOf(subject: string, field: string): string {
  return `${subject} ${field}`;
}

function registerOfRow({ entry }: OutboxRow): string {
  return registerOf(entry.subject, entryField(entry.body));
}

/** More edits than one device makes of one register. */
const unreadStep = 1000;

/** Higher than anything known of this register, here or on the server. */
export function nextCounter(state: OutboxState, answers: readonly Answer[], register: string): number {
  const known = answers
    .filter((answer) => registerOf(answer.subject, answer.field) === register)
    .map((answer) => answer.counter);
  const local = [...state.rows, ...state.held]
    .filter((row) => registerOfRow(row) === register)
    .map(({ entry }) => entry.counter);
  return Math.max(0, ...known, ...local) + 1;
}

/** While what the device kept cannot be read, it may hold edits with higher counters than any known: the newest edit must win all the same. */
export function nextCounterUnread(state: OutboxState, answers: readonly Answer[], register: string): number {
  return nextCounter(state, answers, register) + unreadStep;
}
