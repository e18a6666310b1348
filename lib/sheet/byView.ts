import type { Criterion } from './criterion';
import { views } from './view';

/** The criteria grouped by view in the order one goes round a puppy; the given order is kept within a view. */
export function byView(criteria: readonly Criterion[]): Criterion[] {
  return views.flatMap((view) => criteria.filter((criterion) => criterion.view === view));
}
