import type { SeededRandom } from '#lib/stats/seededRandom';
import type { ConditionalPosterior } from './conditionalPosterior';
import { effectsDeviation, effectsDrawSize, effectsMean, type Effects } from './effectsDraw';
import type { PanelDesign } from './panelDesign';
import type { VarianceDraws } from './varianceDraws';
import type { StandardDeviations } from './varianceParameters';

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
};

/**
 * Draws in mirrored pairs (mean + deviation and mean − deviation), so that means are exact given the SDs; the pairs are dealt to the
 * variance points in proportion to their shares (systematic resampling).
 */
export function jointDraws(
  design: PanelDesign,
  variances: VarianceDraws,
  ask: { readonly weights: readonly Float64Array[]; readonly pairs: number; readonly random: SeededRandom },
): JointDraws {
  const tables = emptyTables(design, ask.weights.length, 2 * ask.pairs);
  const writer = createRowWriter(design, ask.weights, tables);
  const z = new Float64Array(effectsDrawSize(design));
  let row = 0;
  for (const { posterior, times } of dealt(variances, ask.pairs, ask.random)) {
    const mean = effectsMean(design, posterior);
    for (let pair = 0; pair < times; pair += 1) {
      for (let at = 0; at < z.length; at += 1) z[at] = ask.random.normal();
      const deviation = effectsDeviation(design, posterior, z);
      writer({ row, sds: posterior.sds, mean, deviation, sign: 1 });
      writer({ row: row + 1, sds: posterior.sds, mean, deviation, sign: -1 });
      row += 2;
    }
  }
  return tables;
}

export function emptyTables(design: PanelDesign, purposes: number, count: number): JointDraws {
  const [puppies, seats] = [design.puppies.length, design.seats.length];
  return {
    count,
    merits: Array.from({ length: purposes }, () => new Float64Array(count * puppies)),
    levels: Array.from({ length: purposes }, () => new Float64Array(count)),
    severity: new Float64Array(count * seats),
    liking: new Float64Array(count * seats),
    noise: new Float64Array(count * seats),
  };
}

/** Systematic resampling: how often each posterior is used, so that all is `count` and each as its share asks, give or take one. */
export function dealt(variances: VarianceDraws, count: number, random: SeededRandom) {
  const offset = random.uniform();
  const list: { readonly posterior: ConditionalPosterior; readonly times: number }[] = [];
  let [passed, given] = [0, 0];
  variances.points.forEach(({ posterior, share }, index) => {
    passed += share * count;
    const upTo = index === variances.points.length - 1 ? count : Math.min(count, Math.max(given, Math.ceil(passed - offset)));
    if (upTo > given) list.push({ posterior, times: upTo - given });
    given = upTo;
  });
  return list;
}

/** One draw: mean plus or minus a deviation. */
export type DrawnRow = {
  readonly row: number;
  readonly sds: StandardDeviations;
  readonly mean: Effects;
  readonly deviation: Effects;
  readonly sign: number;
};

/** Turns draws of the effects into rows of the tables, in scale points. */
export function createRowWriter(design: PanelDesign, weights: readonly Float64Array[], tables: JointDraws): (drawn: DrawnRow) => void {
  const [puppies, seats] = [design.puppies.length, design.seats.length];
  const twoSided = design.criteria.map((criterion) => criterion.twoSided);
  const quality = new Float64Array(design.criteria.length * puppies);
  const level = new Float64Array(seats);
  return ({ row, sds, mean, deviation, sign }) => {
    for (let at = 0; at < quality.length; at += 1) quality[at] = (mean.standing[at] as number) + sign * (deviation.standing[at] as number);
    twoSided.forEach((isDegree, criterion) => {
      if (isDegree) degreesToQuality(quality.subarray(criterion * puppies, (criterion + 1) * puppies));
    });
    weights.forEach((shares, purpose) => {
      const merits = (tables.merits[purpose] as Float64Array).subarray(row * puppies, (row + 1) * puppies);
      const litter = weightedQuality(quality, shares, merits);
      for (let puppy = 0; puppy < puppies; puppy += 1) merits[puppy] = ((merits[puppy] as number) - litter) * design.unit;
      (tables.levels[purpose] as Float64Array)[row] = design.middle + litter * design.unit;
    });
    for (let seat = 0; seat < seats; seat += 1) level[seat] = (mean.seatLevel[seat] as number) + sign * (deviation.seatLevel[seat] as number);
    const panelLevel = average(level);
    for (let seat = 0; seat < seats; seat += 1) {
      const at = row * seats + seat;
      tables.severity[at] = ((level[seat] as number) - panelLevel) * design.unit;
      tables.liking[at] = (sds.liking[seat] as number) * design.unit;
      tables.noise[at] = (sds.noise[seat] as number) * design.unit;
    }
  };
}

/** quality = top − (top − bottom)/3 · |d|, which is 3 − 2|d| in units about the middle. */
function degreesToQuality(degrees: Float64Array): void {
  for (let at = 0; at < degrees.length; at += 1) degrees[at] = 3 - 2 * Math.abs(degrees[at] as number);
}

/** Weighted quality of each puppy into `into`; returns the litter's mean of it. */
function weightedQuality(quality: Float64Array, shares: Float64Array, into: Float64Array): number {
  const puppies = into.length;
  for (let criterion = 0; criterion < shares.length; criterion += 1) {
    const share = shares[criterion] as number;
    if (share === 0) continue;
    const start = criterion * puppies;
    for (let puppy = 0; puppy < puppies; puppy += 1) {
      into[puppy] = (into[puppy] as number) + share * (quality[start + puppy] as number);
    }
  }
  return average(into);
}

function average(values: Float64Array): number {
  if (values.length === 0) return 0;
  let sum = 0;
  for (let at = 0; at < values.length; at += 1) sum += values[at] as number;
  return sum / values.length;
}
