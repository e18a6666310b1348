import type { Panel, PanelScore } from '../panel/panel';

/** How one seat's card of a puppy shown twice without a word differs from its first, in points (degrees where two-sided). */
export type RepeatDifference = {
  readonly evaluator: string;
  readonly puppy: string;
  /** Cells scored at both showings, and how many of them alike. */
  readonly cells: number;
  readonly alike: number;
  /** Mean of second less first over one-sided cells: the second time higher is above zero; null without such cells. */
  readonly shift: number | null;
  /** Mean absolute difference over all cells. */
  readonly difference: number;
};

/** Facts of the day, by seat and repeated puppy; a seat that scored no cell twice has none. Whether a seat is steady: `evaluatorProfile`, with its interval. */
export function repeatDifferences(panel: Panel, repeats: readonly PanelScore[]): RepeatDifference[] {
  const twoSided = new Set(panel.criteria.filter((criterion) => criterion.twoSided).map(({ key }) => key));
  const keyOf = ({ puppy, evaluator, criterion }: PanelScore) => JSON.stringify([puppy, evaluator, criterion]);
  const before = new Map(panel.scores.map((score) => [keyOf(score), score.value]));
  return panel.evaluators.flatMap((evaluator) =>
    panel.puppies.flatMap((puppy) => {
      const gaps = repeats
        .filter((score) => score.evaluator === evaluator && score.puppy === puppy)
        .flatMap((score) => {
          const first = before.get(keyOf(score));
          return first === undefined ? [] : [{ gap: score.value - first, oneSided: !twoSided.has(score.criterion) }];
        });
      if (gaps.length === 0) return [];
      return [
        {
          evaluator,
          puppy,
          cells: gaps.length,
          alike: gaps.filter(({ gap }) => gap === 0).length,
          shift: mean(gaps.filter(({ oneSided }) => oneSided).map(({ gap }) => gap)),
          difference: mean(gaps.map(({ gap }) => Math.abs(gap))) ?? 0,
        },
      ];
    }),
  );
}

function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}
