import type { EvaluationFacts } from './facts';

/** Learner and mentor of a lesson; null in a panel, or while one of them is missing. */
export function lessonSeats({ plan, seats }: Pick<EvaluationFacts, 'plan' | 'seats'>): { readonly learner: string; readonly mentor: string } | null {
  const scoring = seats.filter((seat) => seat.kind !== 'none');
  const learner = scoring.find((seat) => seat.id === plan.learnerSeatId);
  const mentor = scoring.find((seat) => seat.id !== plan.learnerSeatId);
  return plan.kind === 'lesson' && learner && mentor && scoring.length === 2 ? { learner: learner.id, mentor: mentor.id } : null;
}
