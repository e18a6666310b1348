import type { Panel } from '../panel/panel';

export type CriterionSpread = {
  /** Mean over puppies of the largest minus the smallest score, in points; null when no puppy has two scores. */
  readonly spread: number | null;
  /** Share of pairs of scores of one puppy that lie within one point of each other, pairs counted alike; null as above. */
  readonly withinOne: number | null;
  /** Seats with at least one score. */
  readonly seats: number;
};

/** How far apart the seats are on one criterion, in points: the first thing to show, since it needs no statistics. */
export function criterionSpread(panel: Panel, criterion: string): CriterionSpread {
  const scores = panel.scores.filter((score) => score.criterion === criterion);
  const rows = panel.puppies
    .map((puppy) => scores.filter((score) => score.puppy === puppy).map((score) => score.value))
    .filter((values) => values.length >= 2);
  const gaps = rows.flatMap((values) =>
    values.flatMap((one, index) => values.slice(index + 1).map((other) => Math.abs(one - other))),
  );
  return {
    spread: mean(rows.map((values) => Math.max(...values) - Math.min(...values))),
    withinOne: mean(gaps.map((gap) => (gap <= 1 ? 1 : 0))),
    seats: new Set(scores.map((score) => score.evaluator)).size,
  };
}

function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}
