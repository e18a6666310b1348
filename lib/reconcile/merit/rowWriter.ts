import type { ConditionalPosterior } from './conditionalPosterior';
import type { Effects } from './effectsDraw';
import type { LikingSource } from './likingPlaces';
import type { LookPlan } from '../looks/lookPlan';
import type { MeritPriors } from './meritPriors';
import type { PanelDesign } from './panelDesign';
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

/** One draw: mean plus or minus a deviation (`sign`), and the extra standard normals the second looks' likings take. */
export type DrawnRow = {
  readonly row: number;
  readonly sign: number;
  readonly sds: StandardDeviations;
  readonly mean: Effects;
  readonly deviation: Effects;
  readonly extra: Float64Array;
};

/** Turns draws of the effects into rows of the tables, in scale points. */
export function createRowWriter(source: DrawSource, draws: JointDraws): (drawn: DrawnRow) => void {
  const writeMerits = createMeritWriter(source, draws);
  const writeSeats = createSeatWriter(source.design, draws);
  const { likings } = source.plan;
  return (drawn) => {
    writeMerits(drawn);
    writeSeats(drawn);
    likings.forEach((liking, at) => {
      draws.lookLikings[drawn.row * likings.length + at] = source.design.unit * likingOf(liking, drawn, source.priors);
    });
  };
}

function createMeritWriter({ design, weights, watched }: DrawSource, draws: JointDraws): (drawn: DrawnRow) => void {
  const puppies = design.puppies.length;
  const quality = new Float64Array(design.criteria.length * puppies);
  return ({ row, sign, mean, deviation }) => {
    for (let at = 0; at < quality.length; at += 1) quality[at] = mean.standing[at] + sign * deviation.standing[at];
    for (let puppy = 0; puppy < puppies; puppy += 1) {
      draws.general[row * puppies + puppy] = design.unit * (mean.general[puppy] + sign * deviation.general[puppy]);
    }
    watched.forEach((cell, at) => {
      draws.cells[row * watched.length + at] = design.unit * quality[cell];
    });
    weights.forEach((shares, purpose) => {
      const merits = draws.merits[purpose].subarray(row * puppies, (row + 1) * puppies);
      const litter = weightedQuality(quality, shares, merits);
      for (let puppy = 0; puppy < puppies; puppy += 1) merits[puppy] = (merits[puppy] - litter) * design.unit;
      draws.levels[purpose][row] = design.middle + litter * design.unit;
    });
  };
}

/** Weighted quality of each puppy into `into`; returns the litter's mean of it. */
function weightedQuality(quality: Float64Array, shares: Float64Array, into: Float64Array): number {
  const puppies = into.length;
  into.fill(0);
  for (let criterion = 0; criterion < shares.length; criterion += 1) {
    const share = shares[criterion];
    if (share === 0) continue;
    const start = criterion * puppies;
    for (let puppy = 0; puppy < puppies; puppy += 1) into[puppy] = into[puppy] + share * quality[start + puppy];
  }
  return average(into);
}

function createSeatWriter(design: PanelDesign, draws: JointDraws): (drawn: DrawnRow) => void {
  const seats = design.seats.length;
  const level = new Float64Array(seats);
  const rounding = Math.sqrt(design.rounding.oneSided);
  return ({ row, sign, sds, mean, deviation }) => {
    for (let seat = 0; seat < seats; seat += 1) level[seat] = mean.seatLevel[seat] + sign * deviation.seatLevel[seat];
    const middle = median(level);
    for (let seat = 0; seat < seats; seat += 1) {
      const at = row * seats + seat;
      draws.severity[at] = (level[seat] - middle) * design.unit;
      draws.liking[at] = sds.liking[seat] * design.unit;
      draws.noise[at] = Math.hypot(sds.noise[seat], rounding) * design.unit;
    }
  };
}

/** A seat's liking of a puppy in this draw, in units u. */
function likingOf(source: LikingSource, { sign, sds, mean, deviation, extra }: DrawnRow, priors: MeritPriors): number {
  if (source.kind === 'scored') return mean.liking[source.pair] + sign * deviation.liking[source.pair];
  const draw = sign * extra[source.draw];
  if (source.kind === 'fresh') return draw * sds.liking[source.seat];
  return draw * strangerLikingSd(sds, priors, extra[source.sdDraw]);
}

/** Liking SD of a seat that scored nothing: drawn from the panel's distribution given the SDs of the seats that did. */
export function strangerLikingSd(sds: StandardDeviations, { liking }: MeritPriors, z: number): number {
  if (sds.likingsAlike) return sds.liking[0] ?? liking.median;
  const [panel, own] = [liking.panel ** 2, liking.seat ** 2];
  const pull = panel / (own + sds.liking.length * panel);
  const middle = Math.log(liking.median);
  const gaps = sds.liking.reduce((sum, sd) => sum + Math.log(sd) - middle, 0);
  return Math.exp(middle + pull * gaps + z * Math.sqrt(own + panel - sds.liking.length * panel * pull));
}

/** What fewer than half the seats, however severe, hardly move. */
function median(values: Float64Array): number {
  const sorted = values.toSorted();
  const half = sorted.length / 2;
  return sorted.length === 0 ? 0 : (sorted[Math.ceil(half) - 1] + sorted[Math.floor(half)]) / 2;
}

function average(values: Float64Array): number {
  if (values.length === 0) return 0;
  let sum = 0;
  for (let at = 0; at < values.length; at += 1) sum += values[at];
  return sum / values.length;
}
