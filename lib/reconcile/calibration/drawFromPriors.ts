import type { SeededRandom } from '#lib/stats/seededRandom';
import { PUPPY_POWER, type MeritPriors, type PanelSpread } from '../merit/meritPriors';
import type { Panel, PanelScore } from '../panel/panel';
import { floored } from '../merit/varianceParameters';

/** The SDs of one drawn world, in units u. */
type DrawnDeviations = {
  readonly puppy: number;
  readonly puppyCriterion: number;
  readonly evaluator: number;
  readonly evaluatorCriterion: number;
  readonly puppyFolded: number;
  readonly evaluatorFolded: number;
  readonly foldedNoise: number;
  readonly liking: readonly number[];
  readonly noise: readonly number[];
};

export type DrawnWorld = {
  readonly panel: Panel;
  readonly deviations: DrawnDeviations /** By puppy, equal weights, against the litter. */;
  readonly merit: readonly number[];
};

/** How large a drawn panel is; a cell is missing with chance `missing`. */
export type WorldSize = {
  readonly puppies: number;
  readonly evaluators: number;
  readonly oneSided: number;
  /** Criteria of the second family, whose scores come as the quality they are folded to. */
  readonly folded: number;
  readonly missing: number;
};

/** A panel drawn from the model itself, priors and all: scores neither rounded nor clipped, on a scale of -3 to 3 (so that u = 1). */
export function drawFromPriors(size: WorldSize, priors: MeritPriors, random: SeededRandom): DrawnWorld {
  const deviations = drawDeviations(size, priors, random);
  const normal = (sd: number) => sd * random.normal();
  const list = (count: number, draw: (at: number) => number) => Array.from({ length: count }, (_, at) => draw(at));
  const general = list(size.puppies, () => normal(deviations.puppy));
  const severity = list(size.evaluators, () => normal(deviations.evaluator));
  const liking = deviations.liking.map((sd) => list(size.puppies, () => normal(sd)));
  const scores: PanelScore[] = [];
  const quality = list(size.puppies, () => 0);
  const criteria = list(size.oneSided + size.folded, (at) => at).map((at) => ({
    key: `criterion${at}`,
    twoSided: at >= size.oneSided,
  }));
  for (const { key, twoSided } of criteria) {
    const level = normal(priors.criterionLevel);
    const own = list(size.puppies, () => normal(twoSided ? deviations.puppyFolded : deviations.puppyCriterion));
    const bias = list(size.evaluators, () =>
      normal(twoSided ? deviations.evaluatorFolded : deviations.evaluatorCriterion),
    );
    for (let puppy = 0; puppy < size.puppies; puppy += 1) {
      const truth = level + (own[puppy] ?? 0) + (general[puppy] ?? 0);
      quality[puppy] = (quality[puppy] ?? 0) + truth / criteria.length;
      for (let seat = 0; seat < size.evaluators; seat += 1) {
        const heard = (severity[seat] ?? 0) + (liking[seat]?.[puppy] ?? 0);
        const noise = normal((deviations.noise[seat] ?? 0) * (twoSided ? deviations.foldedNoise : 1));
        if (random.uniform() < size.missing) continue;
        scores.push({
          puppy: `puppy${puppy}`,
          evaluator: `evaluator${seat}`,
          criterion: key,
          value: truth + heard + (bias[seat] ?? 0) + noise,
        });
      }
    }
  }
  const litter = quality.reduce((sum, value) => sum + value, 0) / size.puppies;
  const named = (kind: string, count: number) => Array.from({ length: count }, (_, at) => `${kind}${at}`);
  return {
    panel: {
      scale: { low: -3, high: 3 },
      puppies: named('puppy', size.puppies),
      evaluators: named('evaluator', size.evaluators),
      criteria,
      scores,
    },
    deviations,
    merit: quality.map((value) => value - litter),
  };
}

function drawDeviations(size: WorldSize, priors: MeritPriors, random: SeededRandom): DrawnDeviations {
  const half = (scale: number) => floored(Math.abs(scale * random.normal()));
  const seats = ({ median, panel, seat }: PanelSpread, count: number) => {
    const shared = Math.log(median) + panel * random.normal();
    return Array.from({ length: count }, () => floored(Math.exp(shared + seat * random.normal())));
  };
  return {
    puppy: floored(priors.puppy * Math.abs(random.normal()) ** PUPPY_POWER),
    puppyCriterion: half(priors.puppyCriterion),
    evaluator: half(priors.evaluator),
    evaluatorCriterion: half(priors.evaluatorCriterion),
    puppyFolded: half(priors.puppyFolded),
    evaluatorFolded: half(priors.evaluatorFolded),
    foldedNoise: priors.foldedNoise.median * floored(Math.exp(priors.foldedNoise.sd * random.normal())),
    liking: seats(priors.liking, size.evaluators),
    noise: seats(priors.noise, size.evaluators),
  };
}
