import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import { dealtPoints, jointDraws, type DrawSource, type JointDraws } from '../merit/jointDraws';
import { lookedPairs } from './lookedPairs';
import type { LikingPlaces } from '../merit/likingPlaces';
import { lookPlan } from './lookPlan';
import type { LookSettings } from './lookSettings';
import type { MeritPriors } from '../merit/meritPriors';
import type { ReconcileQuestion } from '../panel/panel';
import { purposeWeights } from '../panel/purposeWeights';
import type { ScorePosterior } from '../merit/scorePosterior';

export type LookedQuestion = Pick<ReconcileQuestion, 'purposes' | 'looks'> & {
  /** Cells whose quality is kept draw by draw, each as criterion × puppies + puppy. */
  readonly watched: readonly number[];
  /** Likings asked for here are drawn beside those the looks need. */
  readonly places: LikingPlaces;
};

export type LookedSettings = {
  readonly priors: MeritPriors;
  readonly looks: LookSettings;
  readonly sampling: { readonly pairs: number };
};

/** Joint draws with their weights, all alike as drawn. */
export type FoldedDraws = { readonly draws: JointDraws; readonly weights: Float64Array };

/** Mirrored pairs at one value of the SDs, for what looks show has to be worked out for each. */
const PAIRS_A_POINT = 10;

/** Joint draws of merits, seats and likings by the scores and the second looks. Depends on the data alone (ST2). */
export function lookedDraws(
  { design, variances }: ScorePosterior,
  question: LookedQuestion,
  settings: LookedSettings,
): FoldedDraws {
  const random = createSeededRandom(seedFromNumbers([design.seed, 1]));
  const source: DrawSource = {
    design,
    priors: settings.priors,
    points: dealtPoints(variances, { places: settings.sampling.pairs, inRow: PAIRS_A_POINT }, random),
    weights: question.purposes.map((purpose) => purposeWeights(design.criteria, purpose)),
    plan: lookPlan(question.looks, design, question),
    watched: question.watched,
  };
  const draws =
    source.plan.looks.length === 0
      ? jointDraws(source, random)
      : lookedPairs(source, { settings: settings.looks, random });
  return { draws, weights: new Float64Array(draws.count).fill(1) };
}
