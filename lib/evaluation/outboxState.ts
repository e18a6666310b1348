import type { Answer, Entry, EntryOutcome } from '../contract/entry';
import { entryField } from './entryField';

/**
 * What a device holds of its own entries, as a pure machine: the shell around it stores, sends, and tells the time.
 * waiting: not yet answered by the server. applied: acknowledged, so on the server's disk (SC1); kept here until a read
 * shows it, so that a device without a link still shows it. late, superseded, refused: answered, and kept until the person has put the notice away.
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
};

export type OutboxState = {
  readonly rows: readonly OutboxRow[];
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

export const emptyOutbox: OutboxState = { rows: [], sending: [], unansweredSince: null, failures: 0, retryAt: 0, single: false, refusal: null };

export const batchLimit = 50;
const firstDelayMs = 1000;
const longestDelayMs = 30_000;

/**
 * Adds a row made here, or rows read back from the device. A row known already keeps what was learnt about it since; one
 * that waits takes over what another page of this device has learnt.
 */
export function addRows(state: OutboxState, rows: readonly OutboxRow[]): OutboxState {
  const known = new Set(state.rows.map((row) => row.entry.id));
  const answered = new Map(rows.filter((row) => row.status !== 'waiting').map((row) => [row.entry.id, row]));
  const fresh = rows.filter((row) => !known.has(row.entry.id));
  const learns = (row: OutboxRow) => row.status === 'waiting' && answered.has(row.entry.id);
  if (fresh.length === 0 && !state.rows.some(learns)) return state;
  return { ...state, rows: [...state.rows.map((row) => (learns(row) ? (answered.get(row.entry.id) ?? row) : row)), ...fresh] };
}

/** The device has answered whether a row is written. */
export function settleRow(state: OutboxState, id: string, kept: 'disk' | 'memory'): OutboxState {
  return { ...state, rows: state.rows.map((row) => (row.entry.id === id ? { ...row, kept } : row)) };
}

export function waitingRows(state: OutboxState): readonly OutboxRow[] {
  return state.rows.filter((row) => row.status === 'waiting');
}

/** What to send now, in the order it was made: nothing while a call is under way, before its time, or behind a row still being written. */
export function nextBatch(state: OutboxState, now: number): readonly Entry[] {
  if (state.sending.length > 0 || now < state.retryAt) return [];
  const waiting = waitingRows(state);
  const unsettled = waiting.findIndex((row) => row.kept === 'pending');
  const ready = unsettled < 0 ? waiting : waiting.slice(0, unsettled);
  return ready.slice(0, state.single ? 1 : batchLimit).map((row) => row.entry);
}

export function startSending(state: OutboxState, ids: readonly string[], now: number): OutboxState {
  return { ...state, sending: ids, unansweredSince: state.unansweredSince ?? now };
}

/** The server's answer, entry by entry; an entry it did not mention goes on waiting. */
export function settleBatch(state: OutboxState, outcomes: readonly EntryOutcome[]): OutboxState {
  const byId = new Map(outcomes.map((outcome) => [outcome.id, outcome]));
  const rows = state.rows.map((row) => {
    const outcome = byId.get(row.entry.id);
    return outcome && row.status === 'waiting' ? { ...row, status: outcome.status, code: outcome.code } : row;
  });
  return { ...state, rows, sending: [], unansweredSince: null, failures: 0, retryAt: 0, refusal: null, single: state.single && rows.some((row) => row.status === 'waiting') };
}

/** `code` is the server's word for refusing the call, null when no answer came; `spread` in 0..1 keeps devices from calling in step. */
export type Failure = { readonly now: number; readonly code: string | null; readonly spread: number };

/** A call failed: wait 1, 2, 4 … 30 s. A faulty batch is taken apart; a single faulty entry is refused for good and shown. */
export function failBatch(state: OutboxState, { now, code, spread }: Failure): OutboxState {
  const answered = code !== null;
  const rest = { ...state, sending: [], unansweredSince: answered ? null : state.unansweredSince };
  if (code === 'bad-input') {
    if (state.sending.length > 1) return { ...rest, single: true };
    const rows = state.rows.map((row) => (state.sending.includes(row.entry.id) ? { ...row, status: 'refused' as const, code } : row));
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

/** Forgets an answered row. A waiting one stays: it is nowhere else. */
export function putAway(state: OutboxState, id: string): OutboxState {
  return { ...state, rows: state.rows.filter((row) => row.entry.id !== id || row.status === 'waiting') };
}

/** Which of the answered rows a fresh read of the seat's own answers has made needless. */
export function absorbedIds(state: OutboxState, answers: readonly Answer[]): readonly string[] {
  const counters = new Map(answers.map((answer) => [registerOf(answer.subject, answer.field), answer.counter]));
  return state.rows
    .filter((row) => row.status === 'applied')
    .filter(({ entry }) => (counters.get(registerOf(entry.subject, entryField(entry.body))) ?? 0) >= entry.counter)
    .map((row) => row.entry.id);
}

/** One subject and one field hold one answer of a seat. */
export function registerOf(subject: string, field: string): string {
  return `${subject} ${field}`;
}

/** More edits than one device makes of one register. */
const unreadStep = 1000;

/** Higher than anything known of this register, here or on the server. */
export function nextCounter(state: OutboxState, answers: readonly Answer[], register: string): number {
  const known = answers.filter((answer) => registerOf(answer.subject, answer.field) === register).map((answer) => answer.counter);
  const local = state.rows.filter(({ entry }) => registerOf(entry.subject, entryField(entry.body)) === register).map(({ entry }) => entry.counter);
  return Math.max(0, ...known, ...local) + 1;
}

/** While what the device kept cannot be read, it may hold edits with higher counters than any known: the newest edit must win all the same. */
export function nextCounterUnread(state: OutboxState, answers: readonly Answer[], register: string): number {
  return nextCounter(state, answers, register) + unreadStep;
}
