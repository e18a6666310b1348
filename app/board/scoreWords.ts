import type { BoardView } from '#lib/contract/boardView';

type Dot = BoardView['criteria'][number]['dots'][number];

/** One score for a table cell: the step, the signed degree, "cannot judge", or a dash where nothing was said. */
export function scoreWords({ twoSided }: { readonly twoSided: boolean }, dot: Pick<Dot, 'value' | 'cannotJudge'> | undefined): string {
  if (!dot) return '–';
  if (dot.value === null) return dot.cannotJudge ? 'cannot judge' : '–';
  if (!twoSided || dot.value === 0) return String(dot.value);
  return dot.value > 0 ? `+${dot.value}` : `−${-dot.value}`;
}
