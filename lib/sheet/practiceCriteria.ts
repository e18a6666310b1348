import type { Criterion } from './criterion';
import type { Sheet } from './sheet';

/** More than this makes practice a second sheet. */
const most = 4;

/** What a panel practises: the first criteria of the sheet that a side picture shows without a hand on the puppy. */
export function practiceCriteria({ criteria }: Sheet): readonly Criterion[] {
  return criteria.filter((one) => one.view === 'side' && !one.handsOnly && one.evidence.includes('photograph')).slice(0, most);
}
