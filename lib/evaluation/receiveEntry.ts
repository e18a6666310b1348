import type { Entry, EntryOutcome } from '../contract/entry';
import { decideEntry } from './decideEntry';
import type { EvaluationFacts, SeatFacts } from './facts';

/** What stands in a register: one seat, one subject and one field of one round. */
export type Standing = {
  readonly counter: number;
  readonly deviceId: string;
  /** Whether the session of the device that made it has ended. */
  readonly deviceEnded: boolean;
};

export type Arrival = { readonly facts: EvaluationFacts; readonly seat: SeatFacts; readonly deviceId: string; readonly entry: Entry };

/** What the server holds already. */
export type Held = {
  /** What became of an entry of this id before; null when it is new. */
  readonly seen: { readonly seatId: string; readonly status: 'applied' | 'superseded' | 'late' } | null;
  /** What stands in the entry's register in a round; null when nothing does. */
  readonly standingIn: (roundId: string) => Standing | null;
};

/** `keepIn` is the round to keep the entry in, for good; null when there is nothing to keep. */
export type Receipt =
  | { readonly keepIn: null; readonly outcome: EntryOutcome }
  | { readonly keepIn: string; readonly outcome: EntryOutcome & { readonly status: 'applied' | 'superseded' | 'late' } };

/**
 * How an entry meets what the server holds, the same wherever it is worked out. One seen before is answered as the first
 * time and kept once (SC2); a sound one after lock or close is kept as late (SC5); else it comes into force unless a newer
 * edit stands.
 */
export function receiveEntry({ facts, seat, deviceId, entry }: Arrival, { seen, standingIn }: Held): Receipt {
  const refused = (code: string): Receipt => ({ keepIn: null, outcome: { id: entry.id, status: 'refused', code } });
  // Ids are random: another seat's is no accident, and nothing is told of it.
  if (seen) return seen.seatId === seat.id ? { keepIn: null, outcome: { id: entry.id, status: seen.status, code: null } } : refused('bad-input');
  const verdict = decideEntry(facts, seat, entry);
  if ('refuse' in verdict) return refused(verdict.refuse);
  const { roundId } = verdict;
  const status = verdict.keep === 'late' ? 'late' : takesRegister(standingIn(roundId), { counter: entry.counter, deviceId }) ? 'applied' : 'superseded';
  return { keepIn: roundId, outcome: { id: entry.id, status, code: null } };
}

/**
 * The higher counter stands, and of two equal ones that of the higher device id: the same on every replica. What a device
 * whose session has ended left standing yields to any edit from another one: a reissued seat's new device does not know
 * its counters.
 */
export function takesRegister(standing: Standing | null, edit: Pick<Standing, 'counter' | 'deviceId'>): boolean {
  if (!standing) return true;
  if (standing.deviceEnded && standing.deviceId !== edit.deviceId) return true;
  return edit.counter > standing.counter || (edit.counter === standing.counter && edit.deviceId > standing.deviceId);
}
