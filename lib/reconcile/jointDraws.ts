import type { SeededRandom } from '#lib/stats/seededRandom';
import type { ConditionalPosterior } from './conditionalPosterior';
import { effectsDraw, effectsDrawSize, type EffectsDraw } from './effectsDraw';
import type { PanelDesign } from './panelDesign';
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
};

/** What one draw says, before it is written into the tables. */
export type DrawnRow = { readonly posterior: ConditionalPosterior; readonly effects: EffectsDraw };

/**
 * Draws in mirrored pairs (z and −z), so that means are exact given the SDs; the pairs are dealt to the variance points in
 * proportion to their shares (systematic resampling).
 */
export function jointDraws(
  design: PanelDesign,
  variances: VarianceDraws,
  ask: { readonly weights: readonly Float64Array[]; readonly pairs: number; readonly random: SeededRandom },
): JointDraws {
  const count = 2 * ask.pairs;
  const tables = emptyTables(design, ask.weights.length, count);
  const z = new Float64Array(effectsDrawSize(design));
  dealt(variances, ask.pairs, ask.random).forEach((posterior, pair) => {
    for (let at = 0; at < z.length; at += 1) z[at] = ask.random.normal();
    writeRow(design, ask.weights, { tables, row: 2 * pair, drawn: { posterior, effects: effectsDraw(design, posterior, z) } });
    for (let at = 0; at < z.length; at += 1) z[at] = -(z[at] as number);
    writeRow(design, ask.weights, { tables, row: 2 * pair + 1, drawn: { posterior, effects: effectsDraw(design, posterior, z) } });
  });
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

/** Systematic resampling: `count` posteriors, each as often as its share asks, give or take one. */
export function dealt(variances: VarianceDraws, count: number, random: SeededRandom): ConditionalPosterior[] {
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

export function writeRow(
  design: PanelDesign,
  weights: readonly Float64Array[],
  put: { readonly tables: JointDraws; readonly row: number; readonly drawn: DrawnRow },
): void {
  const { tables, row } = put;
  const { effects, posterior } = put.drawn;
  const [puppies, seats] = [design.puppies.length, design.seats.length];
  weights.forEach((shares, purpose) => {
    const merits = (tables.merits[purpose] as Float64Array).subarray(row * puppies, (row + 1) * puppies);
    const litter = weightedQuality(effects.quality, shares, merits);
    for (let puppy = 0; puppy < puppies; puppy += 1) merits[puppy] = ((merits[puppy] as number) - litter) * design.unit;
    (tables.levels[purpose] as Float64Array)[row] = design.middle + litter * design.unit;
  });
  const panelLevel = mean(effects.seatLevel);
  for (let seat = 0; seat < seats; seat += 1) {
    const at = row * seats + seat;
    tables.severity[at] = ((effects.seatLevel[seat] as number) - panelLevel) * design.unit;
    tables.liking[at] = (posterior.sds.liking[seat] as number) * design.unit;
    tables.noise[at] = (posterior.sds.noise[seat] as number) * design.unit;
  }
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
  return mean(into);
}

function mean(values: Float64Array): number {
  if (values.length === 0) return 0;
  let sum = 0;
  for (let at = 0; at < values.length; at += 1) sum += values[at] as number;
  return sum / values.length;
}
