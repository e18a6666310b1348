import { pearson } from '#lib/stats/pearson';
import { jackknifed } from './jackknifed';
import { meanInterval, slopeInterval, type Figure } from './leastSquaresInterval';
import type { Panel, PanelScore } from '../panel/panel';
import { scoreQuality } from '../panel/plainMean';

/** How one seat scored within one evaluation; every figure with its 90% interval, or why there is none. */
export type EvaluatorProfile = {
  readonly evaluator: string;
  /** SD of its scores from puppy to puppy over the others' on the same cells: above 1 uses more of the scale. */
  readonly scaleUse: Figure;
  /** Correlation over puppies of its mean with the mean of the other seats, on the cells both judged. */
  readonly agreement: Figure;
  /** Mean absolute difference, in points, between a puppy's first and its silent second showing. */
  readonly selfConsistency: Figure;
  /** Change of its level against the others from one showing to the next, in points. */
  readonly drift: Figure;
};

export type ProfileSource = {
  readonly panel: Panel;
  /** Puppies in the order each seat met them: the table's for all, or in a photograph round its own. */
  readonly orders: Readonly<Record<string, readonly string[]>>;
  /** Scores from silent repeat showings; `panel` holds the first ones. */
  readonly repeats: readonly PanelScore[];
};

const FEW: Figure = { undefined: 'too few data' };
const LEAST_PUPPIES = 5;
const LEAST_REPEATS = 5;

/** One cell both the seat and somebody else judged, in points of quality. */
type SharedCell = {
  readonly puppy: string;
  readonly criterion: string;
  readonly own: number;
  readonly others: readonly number[];
};

export function evaluatorProfile(source: ProfileSource): EvaluatorProfile[] {
  return source.panel.evaluators.map((evaluator) => {
    const cells = sharedCells(source.panel, evaluator);
    const byPuppy = [...groupBy(cells, ({ puppy }) => puppy).values()];
    const enough = byPuppy.length >= LEAST_PUPPIES;
    return {
      evaluator,
      scaleUse: enough ? jackknifed(byPuppy, logScaleUse, Math.exp) : FEW,
      agreement: enough ? jackknifed(byPuppy, fisherAgreement, Math.tanh) : FEW,
      selfConsistency: selfConsistency(source, evaluator),
      drift: drift(source.orders[evaluator] ?? [], cells),
    };
  });
}

/** log of own SD over the root mean square SD of the others, about each criterion's mean. */
function logScaleUse(puppies: readonly (readonly SharedCell[])[]): number | null {
  let [own, others] = [0, 0];
  for (const group of groupBy(puppies.flat(), ({ criterion }) => criterion).values()) {
    const mean = average(group.map((cell) => cell.own));
    const level = average(group.map((cell) => average(cell.others)));
    for (const cell of group) {
      own += (cell.own - mean) ** 2;
      others += average(cell.others.map((value) => (value - level) ** 2));
    }
  }
  return own > 0 && others > 0 ? Math.log(own / others) / 2 : null;
}

/** Fisher's z of the correlation between the puppies' means. */
function fisherAgreement(puppies: readonly (readonly SharedCell[])[]): number | null {
  const levels = new Map(
    [...groupBy(puppies.flat(), ({ criterion }) => criterion)].map(
      ([key, group]) =>
        [
          key,
          { own: average(group.map((cell) => cell.own)), others: average(group.map((cell) => average(cell.others))) },
        ] as const,
    ),
  );
  const first = puppies.map((group) => average(group.map((cell) => cell.own - (levels.get(cell.criterion)?.own ?? 0))));
  const second = puppies.map((group) =>
    average(group.map((cell) => average(cell.others) - (levels.get(cell.criterion)?.others ?? 0))),
  );
  const correlation = pearson({ first, second });
  return correlation === null || Math.abs(correlation) > 1 - 1e-9 ? null : Math.atanh(correlation);
}

function selfConsistency({ panel, repeats }: ProfileSource, evaluator: string): Figure {
  const keyOf = (score: PanelScore) => JSON.stringify([score.puppy, score.criterion]);
  const first = new Map(
    panel.scores.filter((score) => score.evaluator === evaluator).map((score) => [keyOf(score), score.value]),
  );
  const gaps = repeats
    .filter((score) => score.evaluator === evaluator)
    .flatMap((score) => {
      const before = first.get(keyOf(score));
      return before === undefined ? [] : [Math.abs(score.value - before)];
    });
  return gaps.length < LEAST_REPEATS ? FEW : meanInterval(gaps, 0);
}

/** Slope over the showing order of a puppy's mean difference from the others. */
function drift(order: readonly string[], cells: readonly SharedCell[]): Figure {
  const points = order.flatMap((puppy, place) => {
    const gaps = cells.filter((cell) => cell.puppy === puppy).map((cell) => cell.own - average(cell.others));
    return gaps.length > 0 ? [{ x: place, y: average(gaps) }] : [];
  });
  return points.length < LEAST_PUPPIES ? FEW : slopeInterval(points);
}

function sharedCells(panel: Panel, evaluator: string): SharedCell[] {
  const criteria = new Map(panel.criteria.map((criterion) => [criterion.key, criterion]));
  const quality = ({ value, criterion }: PanelScore) => scoreQuality(panel, value, criteria.get(criterion));
  const cells = groupBy(panel.scores, ({ puppy, criterion }) => JSON.stringify([puppy, criterion]));
  return [...cells.values()].flatMap((scores) => {
    const own = scores.find((score) => score.evaluator === evaluator);
    const others = scores.filter((score) => score.evaluator !== evaluator);
    return own && others.length > 0
      ? [{ puppy: own.puppy, criterion: own.criterion, own: quality(own), others: others.map(quality) }]
      : [];
  });
}

function groupBy<T>(list: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of list) groups.set(keyOf(one), [...(groups.get(keyOf(one)) ?? []), one]);
  return groups;
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
