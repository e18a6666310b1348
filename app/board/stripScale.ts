import type { Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import type { StripScale } from '../_parts/ScoreStrip';

/** The scale a criterion is drawn on, with its own words at both ends. */
export function stripScale(criterion: Criterion, { scale }: Sheet): StripScale {
  return criterion.twoSided
    ? { low: -3, high: 3, twoSided: true, ends: [criterion.labels.tooLittle, criterion.labels.tooMuch] }
    : { ...scale, twoSided: false, ends: [criterion.labels.low, criterion.labels.high] };
}
