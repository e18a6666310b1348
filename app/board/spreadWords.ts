import { pairsWithinOne } from './pairsWithinOne';
import type { CriterionResult } from './PuppyStrip';

/** How far the seats lie apart on a criterion, in points; says so when no puppy has two scores. */
export function spreadWords({ spread, withinOne }: CriterionResult): string {
  if (spread === null || withinOne === null) return 'No puppy has two scores here.';
  return `${spread.toFixed(1)} points from lowest to highest seat; ${pairsWithinOne(withinOne)} of scores within one point`;
}
