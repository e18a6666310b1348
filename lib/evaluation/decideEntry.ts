import type { DomainErrorCode } from '../errors';
import type { Entry, EntryBody } from '../contract/entry';
import { checkCatalogue } from '../sheet/checkCatalogue';
import type { EvaluationFacts, SeatFacts } from './facts';

export type EntryVerdict = { readonly keep: 'in-force' | 'late' } | { readonly refuse: DomainErrorCode };

/**
 * Whether an entry from a seat is kept, and how. Its worth is checked first, so that nonsense is refused in every
 * phase; a sound entry after lock or close is kept as late (SC5) and never applied.
 */
export function decideEntry(facts: EvaluationFacts, seat: SeatFacts, entry: Entry): EntryVerdict {
  if (!facts.round) return { refuse: 'wrong-phase' };
  if (seat.kind === 'none') return { refuse: 'not-allowed' };
  const fault = subjectFault(facts, entry) ?? bodyFault(facts, seat, entry);
  if (fault) return { refuse: fault };
  return { keep: facts.round.state === 'open' && seat.lockedAt === null ? 'in-force' : 'late' };
}

function subjectFault(facts: EvaluationFacts, entry: Entry): DomainErrorCode | null {
  if (entry.body.kind === 'choice') return facts.slots.some((slot) => slot.id === entry.subject) ? null : 'not-found';
  return facts.round?.showings.some((showing) => showing.id === entry.subject) ? null : 'not-found';
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
