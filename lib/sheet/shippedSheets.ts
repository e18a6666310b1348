import { above } from './catalogue/above';
import { front } from './catalogue/front';
import { hands } from './catalogue/hands';
import { head } from './catalogue/head';
import { rear } from './catalogue/rear';
import { side } from './catalogue/side';
import { checkKeys } from './check';
import { byView, type Criterion } from './criterion';
import type { Sheet } from './sheet';

/** All 22 criteria and all eleven checks, on seven steps. */
export const fullSheet: Sheet = {
  name: 'Full sheet',
  scale: { low: 1, high: 7 },
  criteria: byView([...side, ...front, ...rear, ...above, ...hands, ...head]),
  checks: [...checkKeys],
};

/** Kept when time is short; the choice is common practice, no source. */
const kept: ReadonlySet<string> = new Set([
  'body-length',
  'neck',
  'shoulder-layback',
  'upper-arm',
  'topline-and-loin',
  'croup-and-tail-set',
  'stifle-and-thigh',
  'front-legs',
  'rear-from-behind',
  'coat-and-colour',
  'head-proportion',
  'ears',
]);

/** Twelve criteria and all eleven checks: what a tired litter has patience for. */
export const shortSheet: Sheet = {
  ...fullSheet,
  name: 'Short sheet',
  criteria: fullSheet.criteria.filter(({ key }) => kept.has(key)),
};

/** More than this makes practice a second sheet. */
const most = 4;

/** What a panel practises: the first criteria of the sheet that a side picture shows without a hand on the puppy. */
export function practiceCriteria({ criteria }: Sheet): readonly Criterion[] {
  return criteria
    .filter((one) => one.view === 'side' && !one.handsOnly && one.evidence.includes('photograph'))
    .slice(0, most);
}
