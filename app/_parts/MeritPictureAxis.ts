import { scaleLinear } from 'd3-scale';
import type { BoardView } from '#lib/contract/boardView';

type Placed = Pick<BoardView['purposes'][number]['merit'][number], 'low' | 'high' | 'mean'>;

export type MeritAxis = {
  /** Per cent of the width, 0 to 100, for a merit in points. */
  at(points: number): number;
  readonly ticks: readonly { readonly value: number; readonly words: string }[];
};

/** Room at both ends, in per cent, for a mark or a label that stands on the last tick. */
const MARGIN = 5;
const ABOUT_TICKS = 4;

/** One axis for all rows, in points from the litter mean, wide enough for every interval and every plain mean. */
export function meritAxis(merit: readonly Placed[]): MeritAxis {
  const ends = merit.flatMap(({ low, high, mean }) => (mean === null ? [low, high] : [low, high, mean]));
  const scale = scaleLinear()
    .domain([Math.min(-0.5, ...ends), Math.max(0.5, ...ends)])
    .nice(ABOUT_TICKS)
    .range([MARGIN, 100 - MARGIN]);
  return {
    at: (points) => scale(points),
    ticks: scale.ticks(ABOUT_TICKS).map((value) => ({ value, words: tickWords(value) })),
  };
}

function tickWords(value: number): string {
  if (value === 0) return 'litter mean';
  return value > 0 ? `+${value}` : `−${Math.abs(value)}`;
}
