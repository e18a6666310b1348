import type { Decision } from '../contract/decisionView';
import type { Cell } from '../contract/plan';
import type { DomainErrorCode } from '../errors';
import type { EvaluationFacts, RoundFacts, SeatFacts, Viewer } from './facts';
import { unconfirmedParties } from './pickOrder';

/** Each rule answers why not, or null for yes. */
type Verdict = DomainErrorCode | null;

const scores = (seat: SeatFacts) => seat.kind !== 'none';

/**
 * The first round, or a lesson's, opens when there is somebody to score, something to score, and every party has agreed
 * to the pick order; the owner may open without an agreement, on the record.
 */
export function decideOpenRound(facts: EvaluationFacts, unconfirmed: boolean): Verdict {
  if (facts.phase !== 'preparing') return 'wrong-phase';
  const scoring = facts.seats.filter(scores);
  const anything = facts.puppies.some((puppy) => !puppy.withdrawn);
  if (scoring.length === 0 || !anything) return 'bad-input';
  if (tooManyForLesson(facts.plan.kind, facts.seats)) return 'lesson-seats';
  if (facts.plan.kind === 'lesson' && !lessonSeats(facts)) return 'bad-input';
  return unconfirmed || unconfirmedParties(facts).length === 0 ? null : 'not-confirmed';
}

/** A seat agrees to the pick order as it is worded now, before scoring. */
export function decideConfirm(facts: EvaluationFacts, seat: SeatFacts): Verdict {
  if (!seat.picks) return 'not-allowed';
  return facts.phase === 'preparing' ? null : 'wrong-phase';
}

/** One second round, about cells of the first, before anything is decided; nobody answers a look beside it. */
export function decideOpenSecond(
  facts: EvaluationFacts,
  cells: readonly Cell[],
  decisions: readonly Decision[],
): Verdict {
  if (facts.phase !== 'deciding' || facts.round?.state !== 'revealed' || facts.round.occasion !== 'first')
    return 'wrong-phase';
  if (facts.openBatchId !== null) return 'still-open';
  if (decisions.length > 0) return 'in-use';
  const known = (cell: Cell) =>
    facts.puppies.some((puppy) => puppy.id === cell.puppyId && !puppy.withdrawn) &&
    facts.sheet.criteria.some(({ key }) => key === cell.criterion);
  const distinct = new Set(cells.map((cell) => `${cell.puppyId} ${cell.criterion}`)).size === cells.length;
  return cells.length > 0 && distinct && cells.every(known) ? null : 'bad-input';
}

/** The owner closes and reveals only with her own card locked: nobody who can still score may choose the moment. */
export function ownCardOpen(facts: EvaluationFacts): boolean {
  return facts.seats.some((seat) => seat.owner && scores(seat) && seat.lockedAt === null);
}

export function decideClose(facts: EvaluationFacts): Verdict {
  if (facts.round?.state !== 'open') return 'wrong-phase';
  // A lesson ends with the mentor's lock: nobody may see a card it was not compared with. One that waits for a third seat though both have locked may be closed.
  if (facts.round.occasion === 'lesson' && !lessonLocked(facts)) return 'wrong-phase';
  return ownCardOpen(facts) ? 'own-card-open' : null;
}

/** BL7: only before reveal; every lock is void then. */
export function decideReopen(facts: EvaluationFacts): Verdict {
  return facts.round?.state === 'closed' ? null : 'wrong-phase';
}

export function decideReveal(facts: EvaluationFacts): Verdict {
  if (facts.round?.state === 'open') return 'still-open';
  if (facts.round?.state !== 'closed') return 'wrong-phase';
  return ownCardOpen(facts) ? 'own-card-open' : null;
}

export function decideLock(facts: EvaluationFacts, seatId: string): Verdict {
  const seat = facts.seats.find((one) => one.id === seatId);
  if (!seat || !scores(seat)) return 'not-allowed';
  if (facts.round?.state !== 'open') return 'wrong-phase';
  if (seat.lockedAt !== null) return 'wrong-phase';
  return facts.round.occasion === 'lesson' && learnerStillOpen(facts, seat) ? 'learner-first' : null;
}

/** In a lesson the learner locks before any mentor: the comparison opens with the last lock. */
function learnerStillOpen(facts: EvaluationFacts, seat: SeatFacts): boolean {
  const learner = facts.seats.find((one) => one.id === facts.plan.learnerSeatId);
  return learner !== undefined && learner.id !== seat.id && learner.lockedAt === null;
}

/** True when the lock just made was the last one awaited: the round closes with it. A lesson awaits learner and mentor alone. */
export function everySeatLocked(facts: EvaluationFacts): boolean {
  if (facts.round?.occasion === 'lesson') return lessonLocked(facts);
  return facts.seats.filter(scores).every((seat) => seat.lockedAt !== null);
}

export function decideMoveTable(facts: EvaluationFacts, viewer: Viewer, showingId: string): Verdict {
  if (!viewer.owner && !viewer.leads) return 'not-allowed';
  if (facts.round?.state !== 'open' || facts.round.medium !== 'table') return 'wrong-phase';
  return facts.round.showings.some((one) => one.id === showingId) ? null : 'not-found';
}

/**
 * A puppy leaves the evaluation, or comes back to it, until something is revealed. One that left before the round was opened
 * has no place in its order and cannot be scored, so it stays out.
 */
export function decideWithdrawal(facts: EvaluationFacts, puppyId: string, out: boolean): Verdict {
  if (!facts.puppies.some((one) => one.id === puppyId)) return 'not-found';
  if (scoredRounds(facts).length > 0) return 'wrong-phase';
  const shown = facts.round === null || facts.round.showings.some((showing) => showing.puppyId === puppyId);
  return out || shown ? null : 'wrong-phase';
}

/** Revealed rounds a result is made from, oldest first: the first (or the lesson), then a second. Practice never counts. */
export function scoredRounds({
  earlierRounds,
  round,
}: Pick<EvaluationFacts, 'earlierRounds' | 'round'>): readonly RoundFacts[] {
  return [...earlierRounds, ...(round ? [round] : [])].filter(
    (one) => one.occasion !== 'practice' && one.state === 'revealed',
  );
}

/**
 * Whether an evaluation may leave the house whole, with every seat's cards by name (BL1, BL8, BL9): once nothing of it is
 * left to be revealed, and never where the panel agreed that nobody is told who said what.
 */
export function decideLeave(facts: EvaluationFacts): Verdict {
  const rounds = [...facts.earlierRounds, ...(facts.round ? [facts.round] : [])];
  if (scoredRounds(facts).length === 0) return 'wrong-phase';
  if (facts.openBatchId !== null || rounds.some((round) => round.state !== 'revealed')) return 'still-open';
  return facts.plan.discussion === 'anonymous' ? 'anonymous' : null;
}

type Lesson = Pick<EvaluationFacts, 'plan' | 'seats'>;

/**
 * Learner and mentor of a lesson; null in a panel, or while one of them is missing. A lesson is opened with two seats that
 * score; one from before that was held to may have more, and then the mentor is who locked first after the learner.
 */
export function lessonSeats({ plan, seats }: Lesson): { readonly learner: string; readonly mentor: string } | null {
  const scoring = seats.filter((seat) => seat.kind !== 'none');
  const learner = scoring.find((seat) => seat.id === plan.learnerSeatId);
  const [first, ...others] = scoring.filter((seat) => seat.id !== plan.learnerSeatId);
  if (plan.kind !== 'lesson' || !learner || !first) return null;
  const mentor = others.reduce(
    (one, other) => ((other.lockedAt ?? Infinity) < (one.lockedAt ?? Infinity) ? other : one),
    first,
  );
  return { learner: learner.id, mentor: mentor.id };
}

/** Whether these seats are more than a lesson compares: a third card would have nobody to be compared with. */
export function tooManyForLesson(kind: Lesson['plan']['kind'], seats: readonly Pick<SeatFacts, 'kind'>[]): boolean {
  return kind === 'lesson' && seats.filter((seat) => seat.kind !== 'none').length > 2;
}

/** A lesson is over when learner and mentor have locked. */
function lessonLocked(facts: Lesson): boolean {
  const pair = lessonSeats(facts);
  return (
    pair !== null &&
    [pair.learner, pair.mentor].every((id) => facts.seats.some((seat) => seat.id === id && seat.lockedAt !== null))
  );
}
