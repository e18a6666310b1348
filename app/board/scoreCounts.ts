import type { BoardView } from '#lib/contract/boardView';
import type { StripScale } from '../_parts/ScoreStrip';

type Dot = Pick<BoardView['criteria'][number]['dots'][number], 'value' | 'cannotJudge'>;

export type ScoreCounts = { /** One for each step of the scale, lowest first. */ readonly steps: readonly number[]; readonly cannotJudge: number };

/** How many seats gave each step: what an anonymous panel shows of a puppy on a criterion. */
export function scoreCounts(dots: readonly Dot[], { low, high }: Pick<StripScale, 'low' | 'high'>): ScoreCounts {
  const steps = Array.from({ length: high - low + 1 }, (_, at) => dots.filter(({ value }) => value === low + at).length);
  return { steps, cannotJudge: dots.filter(({ value, cannotJudge }) => value === null && cannotJudge).length };
}
