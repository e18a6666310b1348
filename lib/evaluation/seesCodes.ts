import type { EvaluationFacts, Viewer } from './facts';
import { scoredRounds } from './scoredRounds';

/**
 * Whether a viewer is kept from knowing which puppy is which: from photographs, where it was agreed, until the reveal. The owner, and whoever
 * leads or organises, have to know.
 */
export function seesCodes(facts: EvaluationFacts, viewer: Viewer): boolean {
  return facts.plan.identity === 'coded' && facts.medium === 'photographs' && !viewer.owner && !viewer.leads && scoredRounds(facts).length === 0;
}
