import { chiSquareUpperTail } from '#lib/stats/chiSquareDistribution';
import { createSeededRandom, seedFromNumbers, type SeededRandom } from '#lib/stats/seededRandom';
import { dealtPoints, jointDraws } from '../merit/jointDraws';
import { noLooks } from '../looks/lookPlan';
import type { MeritPriors } from '../merit/meritPriors';
import type { DegreeFold } from '../merit/foldDegrees';
import { panelDesign } from '../merit/panelDesign';
import { purposeWeights } from '../panel/purposeWeights';
import { reconcileSettings } from '../merit/reconcile';
import { varianceDraws } from '../merit/varianceDraws';
import type { StandardDeviations } from '../merit/varianceParameters';
import { drawFromPriors, type WorldSize } from './drawFromPriors';

/** Where the truth stood among the posterior draws, over many drawn worlds: even counts when the posterior is right. */
export type RankCounts = { readonly quantity: string; readonly counts: readonly number[]; readonly pValue: number };

const DRAWS = 19;

/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari and Gelman 2018): worlds drawn from the priors, the truth ranked among
 * 19 posterior draws, so 20 bins; χ² with 19 degrees of freedom. Quantities: a merit difference and every kind of SD.
 */
export function simulationBasedCalibration(
  size: WorldSize,
  priors: MeritPriors,
  run: { readonly worlds: number; readonly seed: number },
): RankCounts[] {
  const counts = new Map<string, number[]>();
  for (let world = 0; world < run.worlds; world += 1) {
    const random = createSeededRandom(seedFromNumbers([run.seed, world]));
    for (const { quantity, rank } of rankedTruths(size, priors, random)) {
      const list = counts.get(quantity) ?? Array.from({ length: DRAWS + 1 }, () => 0);
      list[rank] = (list[rank] ?? 0) + 1;
      counts.set(quantity, list);
    }
  }
  return [...counts].map(([quantity, list]) => ({ quantity, counts: list, pValue: evenness(list) }));
}

function rankedTruths(
  size: WorldSize,
  priors: MeritPriors,
  random: SeededRandom,
): { quantity: string; rank: number }[] {
  const world = drawFromPriors(size, priors, random);
  const keys = world.panel.criteria.map(({ key }) => key);
  const asQuality: DegreeFold = ({ tables }) => tables.map(({ cells }) => cells);
  const design = panelDesign(world.panel, new Set(keys), asQuality);
  const points = dealtPoints(
    varianceDraws(design, priors, { random, count: reconcileSettings.sampling.points }),
    { places: DRAWS },
    random,
  );
  const weights = [
    purposeWeights(design.criteria, { key: 'all', weights: Object.fromEntries(keys.map((key) => [key, 1])) }),
  ];
  const draws = jointDraws({ design, priors, points, weights, plan: noLooks, watched: [] }, random);
  const [a, b] = [design.puppies.indexOf('puppy0'), design.puppies.indexOf('puppy1')];
  const merits = draws.merits[0] ?? new Float64Array(0);
  // Of each mirrored pair only the first counts: the second is not independent of it.
  const gaps = points.map(
    (_, at) => (merits[2 * at * size.puppies + a] ?? 0) - (merits[2 * at * size.puppies + b] ?? 0),
  );
  const gap = (world.merit[0] ?? 0) - (world.merit[1] ?? 0);
  return [
    { quantity: 'merit difference', rank: rankOf(gap, gaps, random) },
    ...rankedSds(
      world.deviations,
      points.map(({ sds }) => sds),
      { seat: design.seats.indexOf('evaluator0'), random },
    ),
  ];
}

type Deviations = ReturnType<typeof drawFromPriors>['deviations'];

/** The SDs that made the world among those that were drawn; of the seats' own those of the first. */
function rankedSds(
  truth: Deviations,
  drawn: readonly StandardDeviations[],
  { seat, random }: { readonly seat: number; readonly random: SeededRandom },
): { quantity: string; rank: number }[] {
  const shared = [
    'puppy',
    'puppyCriterion',
    'evaluator',
    'evaluatorCriterion',
    'puppyFolded',
    'evaluatorFolded',
    'foldedNoise',
  ] as const;
  const of = (quantity: string, value: number, draws: readonly number[]) => ({
    quantity,
    rank: rankOf(value, draws, random),
  });
  const own = (['liking', 'noise'] as const).map((name) =>
    of(
      name,
      truth[name][0] ?? 0,
      drawn.map((sds) => sds[name][seat] ?? 0),
    ),
  );
  return [
    ...own,
    ...shared.map((name) =>
      of(
        name,
        truth[name],
        drawn.map((sds) => sds[name]),
      ),
    ),
  ];
}

/** How many draws lie below; draws that repeat a variance point tie among themselves only, never with the truth. */
function rankOf(truth: number, draws: readonly number[], random: SeededRandom): number {
  const below = draws.filter((draw) => draw < truth).length;
  const level = draws.filter((draw) => draw === truth).length;
  return below + random.below(level + 1);
}

function evenness(counts: readonly number[]): number {
  const expected = counts.reduce((sum, count) => sum + count, 0) / counts.length;
  return chiSquareUpperTail(
    counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0),
    counts.length - 1,
  );
}
