import type { EvaluationFacts, SeatFacts } from './facts';

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
  const mentor = others.reduce((one, other) => ((other.lockedAt ?? Infinity) < (one.lockedAt ?? Infinity) ? other : one), first);
  return { learner: learner.id, mentor: mentor.id };
}

/** Whether these seats are more than a lesson compares: a third card would have nobody to be compared with. */
export function tooManyForLesson(kind: Lesson['plan']['kind'], seats: readonly Pick<SeatFacts, 'kind'>[]): boolean {
  return kind === 'lesson' && seats.filter((seat) => seat.kind !== 'none').length > 2;
}

/** A lesson is over when learner and mentor have locked. */
export function lessonLocked(facts: Lesson): boolean {
  const pair = lessonSeats(facts);
  return pair !== null && [pair.learner, pair.mentor].every((id) => facts.seats.some((seat) => seat.id === id && seat.lockedAt !== null));
}
