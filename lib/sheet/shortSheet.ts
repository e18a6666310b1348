import { fullSheet } from './fullSheet';
import type { Sheet } from './sheet';

/** Kept when time is short; the choice is common practice, no source. */
const kept: ReadonlySet<string> = new Set([
  'body-length', 'neck', 'shoulder-layback', 'upper-arm', 'topline-and-loin', 'croup-and-tail-set', 'stifle-and-thigh',
  'front-legs', 'rear-from-behind', 'coat-and-colour', 'head-proportion', 'ears',
]);

/** Twelve criteria and all eleven checks: what a tired litter has patience for. */
export const shortSheet: Sheet = {
  ...fullSheet,
  name: 'Short sheet',
  criteria: fullSheet.criteria.filter(({ key }) => kept.has(key)),
};
