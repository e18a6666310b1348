import { createSeededRandom, type SeededRandom } from '#lib/stats/seededRandom';
import type { ConditionalPosterior } from './conditionalPosterior';
import { effectsDeviation, effectsDrawSize, effectsMean, type Effects } from './effectsDraw';
import { createRowWriter, type DrawSource, type JointDraws } from './rowWriter';
import type { VarianceDraws } from './varianceDraws';

export type { DrawSource, JointDraws } from './rowWriter';

/**
 * Deals places to the variance points in proportion to their shares (systematic resampling).
 * @param deal how many places, and how many of them in a row a dealt point gets at least (1 when left out).
 */
export function dealtPoints(
  variances: VarianceDraws,
  deal: { readonly places: number; readonly inRow?: number },
  random: SeededRandom,
): ConditionalPosterior[] {
  const { places, inRow = 1 } = deal;
  const dealt = dealtOnce(variances, Math.ceil(places / inRow), random);
  return dealt.flatMap((point) => Array.from({ length: inRow }, () => point)).slice(0, places);
}

function dealtOnce(variances: VarianceDraws, count: number, random: SeededRandom): ConditionalPosterior[] {
  const offset = random.uniform();
  const list: ConditionalPosterior[] = [];
  let passed = 0;
  for (const { posterior, share } of variances.points) {
    passed += share * count;
    while (list.length < count && list.length + offset < passed) list.push(posterior);
  }
  const last = variances.points.at(-1);
  while (last && list.length < count) list.push(last.posterior);
  return list;
}

/** A mirrored pair of draws (mean + deviation and mean − deviation) for every point, so that means are exact given the SDs. */
export function jointDraws(source: DrawSource, random: SeededRandom): JointDraws {
  const drawer = createDrawer(source, 2 * source.points.length);
  const z = new Float64Array(drawer.size);
  const own = drawer.size - source.plan.extra;
  // The looks' likings come from a source of their own, so that the draws of merit are the same with and without looks.
  const extra = createSeededRandom(random.uniform());
  source.points.forEach((_, point) => {
    for (let at = 0; at < z.length; at += 1) z[at] = at < own ? random.normal() : extra.normal();
    drawer.writePair(2 * point, { point, z });
  });
  return drawer.draws;
}

/** Which variance point and which standard normals make one draw. */
export type DrawRecipe = { readonly point: number; readonly z: Float64Array };

/** Tables of `count` draws and the means to fill them; a recipe takes `size` standard normals. */
export function createDrawer(source: DrawSource, count: number) {
  const { design, points, plan } = source;
  const draws = emptyDraws(source, count);
  const write = createRowWriter(source, draws);
  const effectsSize = effectsDrawSize(design);
  const means = new Map<ConditionalPosterior, Effects>();
  const prepared = ({ point, z }: DrawRecipe) => {
    const posterior = points[point];
    const mean = means.get(posterior) ?? effectsMean(design, posterior);
    means.set(posterior, mean);
    return {
      sds: posterior.sds,
      mean,
      deviation: effectsDeviation(design, posterior, z),
      extra: z.subarray(effectsSize),
    };
  };
  return {
    draws,
    size: effectsSize + plan.extra,
    write(row: number, recipe: DrawRecipe): void {
      write({ row, sign: 1, ...prepared(recipe) });
    },
    writePair(row: number, recipe: DrawRecipe): void {
      const drawn = prepared(recipe);
      write({ row, sign: 1, ...drawn });
      write({ row: row + 1, sign: -1, ...drawn });
    },
  };
}

function emptyDraws({ design, weights, plan, watched }: DrawSource, count: number): JointDraws {
  const [puppies, seats] = [design.puppies.length, design.seats.length];
  return {
    count,
    merits: weights.map(() => new Float64Array(count * puppies)),
    levels: weights.map(() => new Float64Array(count)),
    severity: new Float64Array(count * seats),
    liking: new Float64Array(count * seats),
    noise: new Float64Array(count * seats),
    lookLikings: new Float64Array(count * plan.likings.length),
    general: new Float64Array(count * puppies),
    cells: new Float64Array(count * watched.length),
  };
}
