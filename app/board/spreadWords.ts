import type { CriterionResult } from './PuppyStrip';

/** How far the seats lie apart on a criterion, in points; says so when no puppy has two scores. */
export function spreadWords({ spread }: CriterionResult): string {
  return spread === null ? 'No puppy has two scores here.' : `${spread.toFixed(1)} points apart`;
}
