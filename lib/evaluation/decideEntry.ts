import type { DomainErrorCode } from '../errors';
import type { Entry, EntryBody } from '../contract/entry';
import { checkCatalogue } from '../sheet/checkCatalogue';
import type { EvaluationFacts, RoundFacts, SeatFacts } from './facts';

export type EntryVerdict = { readonly keep: 'in-force' | 'late'; readonly roundId: string } | { readonly refuse: DomainErrorCode };

/**
 * Whether an entry from a seat is kept, and how. Its worth is checked first, so that nonsense is refused in every
 * phase; a sound entry after lock or close is kept as late (SC5) and never applied.
 */
export function decideEntry(facts: EvaluationFacts, seat: SeatFacts, entry: Entry): EntryVerdict {
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
  return facts.slots.some((slot) => slot.id === subject) ? rounds.find((round) => round.occasion === 'first' || round.occasion === 'lesson') : undefined;
}

/** A second round takes scores of its cells, and notes; nothing else is asked again. */
function cellFault({ cells, showings }: RoundFacts, { subject, body }: Entry): DomainErrorCode | null {
  if (cells === null || body.kind === 'note') return null;
  const puppyId = showings.find((showing) => showing.id === subject)?.puppyId;
  const asked = body.kind === 'score' && cells.some((cell) => cell.puppyId === puppyId && cell.criterion === body.criterion);
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
      return body.criterion === null || facts.sheet.criteria.some((one) => one.key === body.criterion) ? null : 'bad-input';
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

function criterionFault(facts: EvaluationFacts, seat: SeatFacts, body: Extract<EntryBody, { kind: 'score' | 'free' }>): DomainErrorCode | null {
  const criterion = facts.sheet.criteria.find((one) => one.key === body.criterion);
  if (!criterion) return 'bad-input';
  if (body.kind === 'free' && !criterion.freeStance) return 'bad-input';
  if (criterion.handsOnly && seat.kind !== 'hands') return 'not-allowed';
  return gradeFault(body, criterion.twoSided ? { low: -3, high: 3 } : facts.sheet.scale);
}

function checkFault(facts: EvaluationFacts, seat: SeatFacts, body: Extract<EntryBody, { kind: 'check' }>): DomainErrorCode | null {
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
