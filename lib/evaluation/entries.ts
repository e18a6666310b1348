import type { Entry, EntryBody, EntryOutcome } from '../contract/entry';
import type { DomainErrorCode } from '../errors';
import { checkCatalogue } from '../sheet/checkCatalogue';
import type { EvaluationFacts, RoundFacts, SeatFacts } from './facts';

/** What stands in a register: one seat, one subject and one field of one round. */
export type Standing = {
  readonly counter: number;
  readonly deviceId: string;
  /** When its device made it, by that device's own clock. */
  readonly madeAt: number;
  /** Whether the session of the device that made it has ended. */
  readonly deviceEnded: boolean;
};

export type Arrival = {
  readonly facts: EvaluationFacts;
  readonly seat: SeatFacts;
  readonly deviceId: string;
  readonly entry: Entry;
};

/** What the server holds already. */
type Held = {
  /** What became of an entry of this id before; null when it is new. */
  readonly seen: { readonly seatId: string; readonly status: 'applied' | 'superseded' | 'late' } | null;
  /** What stands in the entry's register in a round; null when nothing does. */
  readonly standingIn: (roundId: string) => Standing | null;
};

/** `keepIn` is the round to keep the entry in, for good; null when there is nothing to keep. */
export type Receipt =
  | { readonly keepIn: null; readonly outcome: EntryOutcome }
  | {
      readonly keepIn: string;
      readonly outcome: EntryOutcome & { readonly status: 'applied' | 'superseded' | 'late' };
    };

/**
 * How an entry meets what the server holds, the same wherever it is worked out. One seen before is answered as the first
 * time and kept once (SC2); a sound one after lock or close is kept as late (SC5); else it comes into force unless a newer
 * edit stands.
 */
export function receiveEntry({ facts, seat, deviceId, entry }: Arrival, { seen, standingIn }: Held): Receipt {
  const refused = (code: string): Receipt => ({ keepIn: null, outcome: { id: entry.id, status: 'refused', code } });
  // Ids are random: another seat's is no accident, and nothing is told of it.
  if (seen)
    return seen.seatId === seat.id
      ? { keepIn: null, outcome: { id: entry.id, status: seen.status, code: null } }
      : refused('bad-input');
  const verdict = decideEntry(facts, seat, entry);
  if ('refuse' in verdict) return refused(verdict.refuse);
  const { roundId } = verdict;
  const status =
    verdict.keep === 'late'
      ? 'late'
      : takesRegister(standingIn(roundId), { counter: entry.counter, madeAt: entry.madeAt, deviceId })
        ? 'applied'
        : 'superseded';
  return { keepIn: roundId, outcome: { id: entry.id, status, code: null } };
}

/**
 * The higher counter stands, and of two equal ones that of the higher device id: the same on every replica. What a device
 * whose session has ended left standing yields to any edit from another one: a reissued seat's new device does not know
 * its counters. Two pages of one device that did not yet know of each other's edits count alike; of theirs the later stands, by the one clock they have.
 */
function takesRegister(standing: Standing | null, edit: Pick<Standing, 'counter' | 'deviceId' | 'madeAt'>): boolean {
  if (!standing) return true;
  if (standing.deviceEnded && standing.deviceId !== edit.deviceId) return true;
  if (edit.counter !== standing.counter) return edit.counter > standing.counter;
  return edit.deviceId === standing.deviceId ? edit.madeAt > standing.madeAt : edit.deviceId > standing.deviceId;
}

type EntryVerdict =
  | { readonly keep: 'in-force' | 'late'; readonly roundId: string }
  | { readonly refuse: DomainErrorCode };

/**
 * Whether an entry from a seat is kept, and how. Its worth is checked first, so that nonsense is refused in every
 * phase; a sound entry after lock or close is kept as late (SC5) and never applied.
 */
function decideEntry(facts: EvaluationFacts, seat: SeatFacts, entry: Entry): EntryVerdict {
  if (!facts.round) return { refuse: 'wrong-phase' };
  if (seat.kind === 'none') return { refuse: 'not-allowed' };
  const round = roundOf(facts, entry);
  if (!round) return { refuse: 'not-found' };
  const fault = cellFault(round, entry) ?? bodyFault(facts, seat, entry);
  if (fault) return { refuse: fault };
  const open = round === facts.round && round.state === 'open' && seat.lockedAt === null;
  return { keep: open ? 'in-force' : 'late', roundId: round.id };
}

/** A device that was away may send for a round before the newest; a choice belongs to the round that asks for one. */
function roundOf(facts: EvaluationFacts, { subject, body }: Entry): RoundFacts | undefined {
  const rounds = [...facts.earlierRounds, ...(facts.round ? [facts.round] : [])];
  if (body.kind !== 'choice') return rounds.find((round) => round.showings.some((showing) => showing.id === subject));
  return facts.slots.some((slot) => slot.id === subject)
    ? rounds.find((round) => round.occasion === 'first' || round.occasion === 'lesson')
    : undefined;
}

/** A second round takes scores of its cells, and notes; nothing else is asked again. */
function cellFault({ cells, showings }: RoundFacts, { subject, body }: Entry): DomainErrorCode | null {
  if (cells === null || body.kind === 'note') return null;
  const puppyId = showings.find((showing) => showing.id === subject)?.puppyId;
  const asked =
    body.kind === 'score' && cells.some((cell) => cell.puppyId === puppyId && cell.criterion === body.criterion);
  return asked ? null : 'bad-input';
}

function bodyFault(facts: EvaluationFacts, seat: SeatFacts, entry: Entry): DomainErrorCode | null {
  const { body } = entry;
  switch (body.kind) {
    case 'score':
    case 'free':
      return criterionFault(facts, seat, body);
    case 'overall':
      return gradeFault(body, facts.sheet.scale);
    case 'check':
      return checkFault(facts, seat, body);
    case 'choice':
      return choiceFault(facts, entry.subject, body.puppy);
    case 'note':
      return body.criterion === null || facts.sheet.criteria.some((one) => one.key === body.criterion)
        ? null
        : 'bad-input';
    case 'manner':
    case 'fair':
      return null;
  }
}

type Grade = { readonly value: number | null; readonly cannotJudge: boolean };

function gradeFault(grade: Grade, scale: { readonly low: number; readonly high: number }): DomainErrorCode | null {
  if (grade.cannotJudge && grade.value !== null) return 'bad-input';
  if (grade.value !== null && (grade.value < scale.low || grade.value > scale.high)) return 'out-of-scale';
  return null;
}

function criterionFault(
  facts: EvaluationFacts,
  seat: SeatFacts,
  body: Extract<EntryBody, { kind: 'score' | 'free' }>,
): DomainErrorCode | null {
  const criterion = facts.sheet.criteria.find((one) => one.key === body.criterion);
  if (!criterion) return 'bad-input';
  if (body.kind === 'free' && !criterion.freeStance) return 'bad-input';
  if (criterion.handsOnly && seat.kind !== 'hands') return 'not-allowed';
  return gradeFault(body, criterion.twoSided ? { low: -3, high: 3 } : facts.sheet.scale);
}

function checkFault(
  facts: EvaluationFacts,
  seat: SeatFacts,
  body: Extract<EntryBody, { kind: 'check' }>,
): DomainErrorCode | null {
  const check = checkCatalogue.find((one) => one.key === body.check);
  if (!check || !facts.sheet.checks.includes(check.key)) return 'bad-input';
  if (check.handsOnly && seat.kind !== 'hands') return 'not-allowed';
  return body.answer === null || check.answers.some((one) => one.key === body.answer) ? null : 'bad-input';
}

function choiceFault(facts: EvaluationFacts, slotId: string, puppyId: string | null): DomainErrorCode | null {
  if (puppyId === null) return null;
  const slot = facts.slots.find((one) => one.id === slotId);
  const puppy = facts.puppies.find((one) => one.id === puppyId);
  if (!slot || !puppy) return 'not-found';
  return slot.sex === 'any' || slot.sex === puppy.sex ? null : 'not-eligible';
}

/** The register an entry writes: one seat, one subject and one field hold one answer. */
export function entryField(body: EntryBody): string {
  switch (body.kind) {
    case 'score':
      return `score:${body.criterion}`;
    case 'free':
      return `free:${body.criterion}`;
    case 'check':
      return `check:${body.check}`;
    case 'note':
      return body.criterion === null ? 'note' : `note:${body.criterion}`;
    case 'overall':
    case 'manner':
    case 'fair':
    case 'choice':
      return body.kind;
  }
}

/** The graded value of an answer; null for everything that is no grade. */
export function gradeOf(body: EntryBody): number | null {
  return body.kind === 'score' || body.kind === 'free' || body.kind === 'overall' ? body.value : null;
}
