import { studentQuantile } from '#lib/stats/studentDistribution';
import type { Figure } from '../seats/leastSquaresInterval';
import { meanInterval } from '../seats/leastSquaresInterval';
import type { Panel, PanelScore } from '../panel/panel';
import { scoreQuality } from '../panel/plainMean';

/** The learner's score less the mentor's on one criterion, in points (degrees where two-sided). */
type LessonCriterion = {
  readonly criterion: string;
  /** Puppies that both scored. */
  readonly puppies: number;
  /** Mean difference, less on one-sided criteria what is usual there (the median criterion); null when no puppy was scored by both. */
  readonly difference: number | null;
  /** How large a mean difference two seats that agree in truth would show on this many puppies, at most, in 90 of 100 lessons over all criteria. */
  readonly expected: number | null;
  readonly beyond: boolean;
  /** Of the pairs of puppies that the mentor parts by a third of the scale or more in quality, how many the learner puts level or the other way round. */
  readonly parted: number;
  readonly turned: number;
};

export type Lesson = {
  /** How much higher or lower the learner scores in general, in points, over one-sided criteria: mean over puppies of each puppy's mean difference. */
  readonly level: Figure;
  readonly criteria: readonly LessonCriterion[];
  /** Mean absolute difference of a single score once the level is taken off, in points, averaged puppy by puppy: what falls as an eye is trained. */
  readonly gap: Figure;
};

const LEAST_PUPPIES = 3;

type Pair = { readonly criterion: string; readonly puppy: string; readonly gap: number; readonly twoSided: boolean };

/**
 * Learner and mentor on the same puppies. What is expected by chance comes from the lesson itself: the SD of single differences about
 * each criterion's mean, pooled over criteria, on N − C degrees of freedom; the limit is Student's at 0.05/C on either side
 * (Bonferroni), so that 22 criteria do not flag two by themselves. Undefined below three puppies scored by both.
 */
export function lesson(
  panel: Panel,
  { learner, mentor }: { readonly learner: string; readonly mentor: string },
): Lesson {
  const pairs = pairsOf(panel, { learner, mentor });
  // A liking moves all of a puppy's scores together: the puppies are the independent cases, not the scores.
  const oneSided = puppyMeans(pairs.filter(({ twoSided }) => !twoSided));
  const level = oneSided.length < LEAST_PUPPIES ? tooFew : meanInterval(oneSided, Number.NEGATIVE_INFINITY);
  const off = 'undefined' in level ? 0 : usualGap(pairs.filter(({ twoSided }) => !twoSided));
  const levelled = pairs.map((pair) => (pair.twoSided ? pair : { ...pair, gap: pair.gap - off }));
  const gaps = puppyMeans(levelled.map((pair) => ({ ...pair, gap: Math.abs(pair.gap) })));
  return {
    level,
    criteria: criteriaOf(panel, levelled).map((one) => ({
      ...one,
      ...ordersOf(panel, one.criterion, { learner, mentor }),
    })),
    gap: gaps.length < LEAST_PUPPIES ? tooFew : meanInterval(gaps, 0),
  };
}

/** The median over criteria of the mean difference: one criterion read quite differently does not make a level. */
function usualGap(pairs: readonly Pair[]): number {
  const keys = [...new Set(pairs.map(({ criterion }) => criterion))];
  const means = keys
    .map((key) => meanOf(pairs.filter(({ criterion }) => criterion === key).map(({ gap }) => gap)) ?? 0)
    .sort((a, b) => a - b);
  const middle = Math.floor(means.length / 2);
  return means.length % 2 === 1 ? (means[middle] ?? 0) : ((means[middle - 1] ?? 0) + (means[middle] ?? 0)) / 2;
}

const tooFew: Figure = { undefined: 'too few data' };

function pairsOf(panel: Panel, { learner, mentor }: { readonly learner: string; readonly mentor: string }): Pair[] {
  const keyOf = (score: PanelScore) => JSON.stringify([score.puppy, score.criterion]);
  const theirs = new Map(
    panel.scores.filter(({ evaluator }) => evaluator === mentor).map((score) => [keyOf(score), score.value]),
  );
  const twoSided = new Set(panel.criteria.filter((one) => one.twoSided).map(({ key }) => key));
  return panel.scores
    .filter(({ evaluator }) => evaluator === learner)
    .flatMap((score) => {
      const other = theirs.get(keyOf(score));
      return other === undefined
        ? []
        : [
            {
              criterion: score.criterion,
              puppy: score.puppy,
              gap: score.value - other,
              twoSided: twoSided.has(score.criterion),
            },
          ];
    });
}

function criteriaOf(panel: Panel, pairs: readonly Pair[]): Omit<LessonCriterion, 'parted' | 'turned'>[] {
  const means = new Map(
    panel.criteria.map(({ key }) => [
      key,
      meanOf(pairs.filter(({ criterion }) => criterion === key).map(({ gap }) => gap)),
    ]),
  );
  const judged = [...means.values()].filter((mean) => mean !== null).length;
  const freedom = pairs.length - judged;
  const squares = pairs.reduce((sum, { criterion, gap }) => sum + (gap - (means.get(criterion) ?? 0)) ** 2, 0);
  const sd = freedom > 0 ? Math.sqrt(squares / freedom) : null;
  const reach = sd === null ? null : studentQuantile(1 - 0.05 / judged, freedom) * sd;
  return panel.criteria.map(({ key: criterion }) => {
    const puppies = pairs.filter((pair) => pair.criterion === criterion).length;
    const difference = means.get(criterion) ?? null;
    const expected = reach === null || puppies === 0 ? null : reach / Math.sqrt(puppies);
    return {
      criterion,
      puppies,
      difference,
      expected,
      beyond: difference !== null && expected !== null && puppies >= LEAST_PUPPIES && Math.abs(difference) > expected,
    };
  });
}

/** Means may agree where orders do not: a mentor's 7, 1, 1, 1 against 4, 5, 6, 5. */
function ordersOf(
  panel: Panel,
  key: string,
  { learner, mentor }: { readonly learner: string; readonly mentor: string },
): Pick<LessonCriterion, 'parted' | 'turned'> {
  const criterion = panel.criteria.find((one) => one.key === key);
  const of = (seat: string) =>
    new Map(
      panel.scores
        .filter((score) => score.evaluator === seat && score.criterion === key)
        .map(({ puppy, value }) => [puppy, scoreQuality(panel, value, criterion)]),
    );
  const [own, theirs] = [of(learner), of(mentor)];
  const both = [...theirs].flatMap(([puppy, quality]) => {
    const seen = own.get(puppy);
    return seen === undefined ? [] : [{ quality, seen }];
  });
  const third = (panel.scale.high - panel.scale.low) / 3 - 1e-9;
  const gaps = both.flatMap((one) =>
    both.filter((other) => one.quality - other.quality >= third).map((other) => one.seen - other.seen),
  );
  return { parted: gaps.length, turned: gaps.filter((gap) => gap <= 0).length };
}

function puppyMeans(pairs: readonly Pair[]): number[] {
  const puppies = [...new Set(pairs.map(({ puppy }) => puppy))];
  return puppies.flatMap((puppy) => meanOf(pairs.filter((pair) => pair.puppy === puppy).map(({ gap }) => gap)) ?? []);
}

function meanOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}
