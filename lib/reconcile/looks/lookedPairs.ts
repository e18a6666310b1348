import { choleskyFactor, choleskyInverse } from '#lib/stats/cholesky';
import { invariant } from '#lib/invariant';
import { createSeededRandom, type SeededRandom } from '#lib/stats/seededRandom';
import { truncatedNormal } from '#lib/stats/truncatedNormal';
import type { ConditionalPosterior } from '../merit/conditionalPosterior';
import { effectsDrawSize, effectsMean, effectsTranspose, type Effects } from '../merit/effectsDraw';
import { createDrawer, type DrawSource, type JointDraws } from '../merit/jointDraws';
import { answerInterval, liftOf } from './lookLikelihood';
import type { PlannedLook } from './lookPlan';
import type { LookSettings } from './lookSettings';
import { strangerLikingSd } from '../merit/rowWriter';

/** Pairs after which looks are taken anew even at the same SDs: the liking SDs of newcomers are drawn once a run. */
const PAIRS_A_RUN = 10;
/** Sweeps over all answers before the first pair of draws at one value of the SDs, and between two pairs. */
const FIRST_SWEEPS = 60;
const SWEEPS = 8;

/**
 * Mirrored pairs of draws of the posterior of scores and second looks together. They keep the values of the SDs that the scores give: looks tell of
 * puppies. Given the SDs, what seats see at their looks is linear in the standard normals z, ḡ + Gz, and an answer says between which marks u = ḡ + Gz + noise
 * fell. So u is normal, cut off at the marks: its parts are drawn in turn, each given the others (Geweke 1991), and z given u is normal again
 * (data augmentation, Albert and Chib 1993), which makes a draw and its mirror image.
 */
export function lookedPairs(
  source: DrawSource,
  by: { readonly settings: LookSettings; readonly random: SeededRandom },
): JointDraws {
  const { points, plan } = source;
  const drawer = createDrawer(source, 2 * points.length);
  const own = drawer.size - plan.extra;
  // What is drawn freely is what `jointDraws` draws from this source, so that with and without looks differ by the looks and little by luck.
  const luck = createSeededRandom(by.random.uniform());
  const sdPlaces = new Set(
    plan.likings.flatMap((liking) =>
      liking.kind === 'stranger' ? [effectsDrawSize(source.design) + liking.sdDraw] : [],
    ),
  );
  let seen: SeenLooks | null = null;
  points.forEach((posterior, point) => {
    const again = posterior === points[point - 1] && point % PAIRS_A_RUN > 0 ? seen : null;
    const now =
      again ??
      seenLooks(source, {
        posterior,
        held: Float64Array.from({ length: drawer.size }, () => luck.normal()),
        settings: by.settings,
      });
    for (let sweep = again ? FIRST_SWEEPS - SWEEPS : 0; sweep < FIRST_SWEEPS; sweep += 1) drawAnswers(now, luck);
    const free = Float64Array.from({ length: drawer.size }, (_, at) => (at < own ? by.random : luck).normal());
    const [middle, deviation] = givenAnswers(now, free, { noise: by.settings.noise, random: luck });
    for (const sign of [1, -1]) {
      const z = middle.map((value, at) => (sdPlaces.has(at) ? now.held[at] : value + sign * deviation[at]));
      drawer.write(2 * point + (sign > 0 ? 0 : 1), { point, z });
    }
    seen = now;
  });
  return drawer.draws;
}

/** The looks at one value of the SDs, in units u: K answers and as many rows of G. */
type SeenLooks = {
  /** Standard normals of which the liking SDs of seats without scores are made: SDs, and so never moved. */
  readonly held: Float64Array;
  readonly rows: readonly Float64Array[];
  readonly mean: Float64Array;
  /** Inverse of GG' + noise². */
  readonly precision: Float64Array;
  readonly intervals: readonly (readonly [number, number])[];
  /** u − ḡ, as it stands. */
  readonly beyond: Float64Array;
};

function seenLooks(
  source: DrawSource,
  at: { readonly posterior: ConditionalPosterior; readonly held: Float64Array; readonly settings: LookSettings },
): SeenLooks {
  const { looks } = source.plan;
  const { settings } = at;
  const mean = effectsMean(source.design, at.posterior);
  const known = new Map<string, { readonly row: Float64Array; readonly mean: number }>();
  const seen = looks.map((look) => {
    const key = [look.purpose, look.first, look.second, look.firstLiking, look.secondLiking].join(' ');
    const one = known.get(key) ?? seenLook(source, { ...at, look, mean });
    known.set(key, one);
    return one;
  });
  const count = looks.length;
  const matrix = new Float64Array(count * count);
  seen.forEach(({ row }, i) => {
    for (let j = 0; j <= i; j += 1)
      matrix[i * count + j] = dot(row, seen[j]?.row ?? row) + (i === j ? settings.noise ** 2 : 0);
  });
  invariant(choleskyFactor(matrix, count), 'what looks show has a positive definite covariance');
  const middles = Float64Array.from(seen, (one) => one.mean);
  const intervals = looks.map(({ choice }) => answerInterval(choice, settings));
  const beyond = Float64Array.from(
    intervals,
    ([low, high], i) => Math.min(high, Math.max(low, middles[i])) - middles[i],
  );
  return {
    held: at.held,
    rows: seen.map(({ row }) => row),
    mean: middles,
    precision: choleskyInverse(matrix, count),
    intervals,
    beyond,
  };
}

type OneLook = {
  readonly look: PlannedLook;
  readonly posterior: ConditionalPosterior;
  readonly mean: Effects;
  readonly held: Float64Array;
  readonly settings: LookSettings;
};

/** Mean and row of G of the difference in perceived merit, lifted where need be. */
function seenLook(
  source: DrawSource,
  { look, posterior, mean, held, settings }: OneLook,
): { readonly row: Float64Array; readonly mean: number } {
  const { design, plan, weights } = source;
  const size = effectsDrawSize(design);
  const shares = weights[look.purpose] ?? new Float64Array(0);
  const standing = new Float64Array(mean.standing.length);
  const likings = new Float64Array(mean.liking.length);
  shares.forEach((share, criterion) => {
    standing[criterion * design.puppies.length + look.first] = share;
    standing[criterion * design.puppies.length + look.second] = -share;
  });
  const [merit, liked] = [new Float64Array(held.length), new Float64Array(held.length)];
  for (const [place, sign] of [
    [look.firstLiking, 1],
    [look.secondLiking, -1],
  ] as const) {
    const liking = plan.likings[place];
    if (liking?.kind === 'scored') likings[liking.pair] = sign;
    if (liking?.kind === 'fresh') liked[size + liking.draw] = sign * posterior.sds.liking[liking.seat];
    if (liking?.kind === 'stranger')
      liked[size + liking.draw] = sign * strangerLikingSd(posterior.sds, source.priors, held[size + liking.sdDraw]);
  }
  merit.set(effectsTranspose(design, posterior, { standing, liking: new Float64Array(likings.length) }));
  liked.set(effectsTranspose(design, posterior, { standing: new Float64Array(standing.length), liking: likings }));
  const times = 1 + liftOf(merit, liked, settings.carryOver);
  return {
    row: merit.map((value, at) => times * value + settings.carryOver * liked[at]),
    mean: dot(standing, mean.standing) + settings.carryOver * dot(likings, mean.liking),
  };
}

/** One sweep: what each answer saw, given what the others did. */
function drawAnswers({ precision, intervals, mean, beyond }: SeenLooks, random: SeededRandom): void {
  const count = beyond.length;
  for (let i = 0; i < count; i += 1) {
    const own = precision[i * count + i];
    let pull = -own * beyond[i];
    for (let j = 0; j < count; j += 1) pull += precision[i * count + j] * beyond[j];
    const [middle, sd] = [-pull / own, 1 / Math.sqrt(own)];
    const [low, high] = intervals[i] ?? [-Infinity, Infinity];
    const start = mean[i] + middle;
    beyond[i] = middle + sd * truncatedNormal([(low - start) / sd, (high - start) / sd], random);
  }
}

/** Mean of z given what the answers saw, and one deviation from it: of z and noise drawn freely, what the answers do not settle (Matheron's rule). */
function givenAnswers(
  { rows, precision, beyond }: SeenLooks,
  z: Float64Array,
  by: { readonly noise: number; readonly random: SeededRandom },
): [Float64Array, Float64Array] {
  const free = Float64Array.from(rows, (row) => dot(row, z) + by.noise * by.random.normal());
  const middle = new Float64Array(z.length);
  addMoved(middle, { rows, precision }, { by: beyond, sign: 1 });
  addMoved(z, { rows, precision }, { by: free, sign: -1 });
  return [middle, z];
}

/** into += sign · G' precision · by. */
function addMoved(
  into: Float64Array,
  { rows, precision }: Pick<SeenLooks, 'rows' | 'precision'>,
  move: { readonly by: Float64Array; readonly sign: number },
): void {
  const count = rows.length;
  rows.forEach((row, i) => {
    const times = move.sign * dot(precision.subarray(i * count, (i + 1) * count), move.by);
    for (let at = 0; at < into.length; at += 1) into[at] = into[at] + times * row[at];
  });
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < a.length; at += 1) sum += a[at] * b[at];
  return sum;
}
