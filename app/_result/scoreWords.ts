import type { BoardView } from '#lib/contract/boardView';
import type { Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import type { StripScale } from '../_parts/ScoreStrip';

type Dot = BoardView['criteria'][number]['dots'][number];

/** One score for a table cell: the step, the signed degree, "cannot judge", or a dash where nothing was said. */
export function scoreWords(
  { twoSided }: { readonly twoSided: boolean },
  dot: Pick<Dot, 'value' | 'cannotJudge'> | undefined,
): string {
  if (!dot) return '–';
  if (dot.value === null) return dot.cannotJudge ? 'cannot judge' : '–';
  if (!twoSided || dot.value === 0) return String(dot.value);
  return dot.value > 0 ? `+${dot.value}` : `−${-dot.value}`;
}

/** The scale a criterion is drawn on, with its own words at both ends. */
export function stripScale(criterion: Criterion, { scale }: Sheet): StripScale {
  return criterion.twoSided
    ? { low: -3, high: 3, twoSided: true, ends: [criterion.labels.tooLittle, criterion.labels.tooMuch] }
    : { ...scale, twoSided: false, ends: [criterion.labels.low, criterion.labels.high] };
}
