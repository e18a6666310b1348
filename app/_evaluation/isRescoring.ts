import type { EvaluationView } from '#lib/contract/evaluationView';

/** A second round is under way beside the result of the first. */
export function isRescoring({ revealed, round }: Pick<EvaluationView, 'revealed' | 'round'>): boolean {
  return revealed && round !== null && round.state !== 'revealed';
}

/** What keeps one's notes, marks and hand from the others until it is revealed, after there is a result; null while nothing does. */
export function holding(
  evaluation: Pick<EvaluationView, 'revealed' | 'round' | 'lookOpen'>,
): 'second round' | 'second look' | null {
  if (isRescoring(evaluation)) return 'second round';
  return evaluation.lookOpen ? 'second look' : null;
}
