import type { EvaluationView } from '#lib/contract/evaluationView';

/** A second round is under way beside the result of the first. */
export function isRescoring({ revealed, round }: Pick<EvaluationView, 'revealed' | 'round'>): boolean {
  return revealed && round !== null && round.state !== 'revealed';
}
