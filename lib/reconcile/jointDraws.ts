import { createSeededRandom, type SeededRandom } from '#lib/stats/seededRandom';
import type { ConditionalPosterior } from './conditionalPosterior';
import { effectsDeviation, effectsDrawSize, effectsMean, type Effects } from './effectsDraw';
import type { LookPlan } from './lookPlan';
import type { MeritPriors } from './meritPriors';
import type { PanelDesign } from './panelDesign';
import { createRowWriter } from './rowWriter';
import type { VarianceDraws } from './varianceDraws';

/** Equally likely joint draws (before second looks), each the rows of its tables; in scale points. */
export type JointDraws = {
  readonly count: number;
  /** By purpose: merit of puppy p in draw i at [i × puppies + p], against the litter's mean. */
  readonly merits: readonly Float64Array[];
  /** By purpose: the litter's level in each draw. */
  readonly levels: readonly Float64Array[];
  /** Severity, liking SD and noise SD of seat j in draw i at [i × seats + j]. */
  readonly severity: Float64Array;
  readonly liking: Float64Array;
  readonly noise: Float64Array;
  /** Likings k that second looks need, in draw i at [i × likings + k]. */
  readonly lookLikings: Float64Array;
  /** Overall quality π of puppy p in draw i at [i × puppies + p]: what likings blur. */
  readonly general: Float64Array;
  /** Quality in watched cell k in draw i at [i × cells + k]. */
  readonly cells: Float64Array;
};

/** Everything joint draws are made from. */
export type DrawSource = {
  readonly design: PanelDesign;
  readonly priors: MeritPriors;
  /** Equally likely values of the SDs; the same one may come several times, then in a row. */
  readonly points: readonly ConditionalPosterior[];
  /** Share of each criterion, by purpose. */
  readonly weights: readonly Float64Array[];
  readonly plan: LookPlan;
  /** Cells whose quality is kept draw by draw, each as criterion × puppies + puppy. */
  readonly watched: readonly number[];
};

/**
 * Deals places to the variance points in proportion to their shares (systematic resampling).
 * @param deal how many places, and how many of them in a row a dealt point gets at least (1 when left out).
 */
export function dealtPoints(variances: VarianceDraws, deal: { readonly places: number; readonly inRow?: number }, random: SeededRandom): ConditionalPosterior[] {
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
    const posterior = points[point] as ConditionalPosterior;
    const mean = means.get(posterior) ?? effectsMean(design, posterior);
    means.set(posterior, mean);
    return { sds: posterior.sds, mean, deviation: effectsDeviation(design, posterior, z), extra: z.subarray(effectsSize) };
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
