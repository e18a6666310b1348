import {
  choleskyFactor,
  choleskyInverse,
  choleskyLogDeterminant,
  lowerSolve,
  lowerTransposeSolve,
} from '#lib/stats/cholesky';
import { invariant } from '#lib/invariant';

/** Which puppy and which seat each cell belongs to. */
export type Cells = { readonly puppies: Int32Array; readonly seats: Int32Array };

/** Variances of cell (p, j) = common + puppy_p + seat_j + own_pj. */
export type CrossedVariances = {
  readonly common: number;
  readonly puppy: number;
  readonly seat: number;
  /** Own variance of a cell, by seat. */
  readonly own: readonly number[];
  readonly tie?: Tie;
};

/** What seats have for themselves and yet in common: one factor, on which seat j loads λ_j, from 0 (untied) to below 1, so that two go together by λ_j λ_k. */
export type Tie = {
  /** λ of what the cells of one puppy have of their own, by seat. */
  readonly own: Float64Array;
  /** λ of the seats' own effects; null where they have nothing in common. */
  readonly effects: Float64Array | null;
};

/** What tables that share their variances have in common, whatever their cells. */
export type CrossedPrior = {
  readonly size: number;
  readonly puppyCount: number;
  /** One over the variance of what a cell has for itself, by seat, and its log. */
  readonly precision: Float64Array;
  readonly logPrecision: Float64Array;
  /** What a cell has of its puppy's tied part, in SDs of it, by seat; null where no seats are tied. */
  readonly loading: Float64Array | null;
  /** Precision of the effects before any cell (lower triangle), and the log determinant of its inverse. */
  readonly effectsPrecision: Float64Array;
  readonly logDeterminant: number;
};

/**
 * Cells of one table with puppy and seat effects, covariance V = common 11' + puppy Zp Zp' + seat Zj Zj' + D.
 * `factor` is the Cholesky factor of A, the posterior precision of the effects (common + puppy_p for each puppy, then seat_j, then, where seats are tied,
 * what their cells of puppy p have in common: own_pj = loading_j tied_p + the rest, so that D stays diagonal).
 */
export type CrossedSystem = {
  readonly cells: Cells;
  readonly size: number;
  readonly puppyCount: number;
  readonly factor: Float64Array;
  /** One over the variance of what a cell has for itself, by seat. */
  readonly precision: Float64Array;
  readonly loading: Float64Array | null;
  /** log |V| over the cells. */
  readonly logDeterminant: number;
};

export function crossedPrior(puppyCount: number, variances: CrossedVariances): CrossedPrior {
  const { own, tie } = variances;
  const precision = Float64Array.from(
    own,
    (variance, seat) => 1 / (tie ? (1 - tie.own[seat] ** 2) * variance : variance),
  );
  return {
    size: effectsCount(puppyCount, own.length, tie !== undefined),
    puppyCount,
    precision,
    logPrecision: precision.map(Math.log),
    loading: tie ? Float64Array.from(own, (variance, seat) => tie.own[seat] * Math.sqrt(variance)) : null,
    effectsPrecision: priorPrecision(puppyCount, variances),
    logDeterminant: priorLogDeterminant(puppyCount, variances),
  };
}

/** How many effects a table has. */
export function effectsCount(puppies: number, seats: number, tied: boolean): number {
  return puppies + seats + (tied ? puppies : 0);
}

/** Builds A by the Woodbury identity: V⁻¹ = D⁻¹ − D⁻¹ Z A⁻¹ Z' D⁻¹. Cost is cubic in puppies + seats, not in cells. */
export function crossedSystem(cells: Cells, prior: CrossedPrior): CrossedSystem {
  const { size, puppyCount, precision, logPrecision, loading } = prior;
  const firstTied = puppyCount + precision.length;
  const { puppies, seats } = cells;
  const a = prior.effectsPrecision.slice();
  let { logDeterminant } = prior;
  for (let cell = 0; cell < puppies.length; cell += 1) {
    const puppy = puppies[cell];
    const seat = seats[cell];
    const weight = precision[seat];
    const node = puppyCount + seat;
    a[puppy * size + puppy] = a[puppy * size + puppy] + weight;
    a[node * size + node] = a[node * size + node] + weight;
    a[node * size + puppy] = a[node * size + puppy] + weight;
    if (loading !== null) {
      const [row, share] = [(firstTied + puppy) * size, loading[seat]];
      a[row + puppy] = a[row + puppy] + weight * share;
      a[row + node] = a[row + node] + weight * share;
      a[row + firstTied + puppy] = a[row + firstTied + puppy] + weight * share * share;
    }
    logDeterminant -= logPrecision[seat];
  }
  invariant(choleskyFactor(a, size), 'the effects of a table have a positive definite precision');
  logDeterminant += choleskyLogDeterminant(a, size);
  return { cells, size, puppyCount, factor: a, precision, loading, logDeterminant };
}

/** Precision of (common + puppy_p) is that of puppy I + common 11', by Sherman and Morrison. */
function priorPrecision(puppyCount: number, { common, puppy, seat, own, tie }: CrossedVariances): Float64Array {
  const size = effectsCount(puppyCount, own.length, tie !== undefined);
  const a = new Float64Array(size * size);
  const shared = -common / (puppy * (puppy + puppyCount * common));
  for (let row = 0; row < puppyCount; row += 1) {
    for (let column = 0; column <= row; column += 1) a[row * size + column] = shared;
    a[row * size + row] = shared + 1 / puppy;
  }
  for (let node = puppyCount; node < size; node += 1)
    a[node * size + node] = node < puppyCount + own.length ? 1 / seat : 1;
  if (!tie?.effects) return a;
  // The inverse of λλ' + diag(1 − λ²), by Sherman and Morrison.
  const pulls = tie.effects.map((share) => share / (1 - share ** 2));
  const together = 1 / (seat * (1 + factorWeight(tie.effects)));
  for (let one = 0; one < own.length; one += 1) {
    const row = (puppyCount + one) * size + puppyCount;
    for (let other = 0; other <= one; other += 1) a[row + other] = -together * pulls[one] * pulls[other];
    a[row + one] = a[row + one] + 1 / (seat * (1 - tie.effects[one] ** 2));
  }
  return a;
}

/** λ' diag(1 − λ²)⁻¹ λ. */
function factorWeight(loadings: Float64Array): number {
  return loadings.reduce((sum, share) => sum + share ** 2 / (1 - share ** 2), 0);
}

/** log |prior covariance of the effects|. */
function priorLogDeterminant(puppyCount: number, { common, puppy, seat, own, tie }: CrossedVariances): number {
  const together = tie?.effects
    ? tie.effects.reduce((sum, share) => sum + Math.log(1 - share ** 2), Math.log(1 + factorWeight(tie.effects)))
    : 0;
  const seats = own.length * Math.log(seat) + together;
  if (puppyCount === 0) return seats;
  return (puppyCount - 1) * Math.log(puppy) + Math.log(puppy + puppyCount * common) + seats;
}

/** Z' D⁻¹ values: what the cells say to each effect. */
export function cellTotals(system: CrossedSystem, values: Float64Array): Float64Array {
  const { size, puppyCount, precision, loading } = system;
  const { puppies, seats } = system.cells;
  const firstTied = puppyCount + precision.length;
  const totals = new Float64Array(size);
  for (let cell = 0; cell < values.length; cell += 1) {
    const puppy = puppies[cell];
    const seat = seats[cell];
    const weighted = values[cell] * precision[seat];
    totals[puppy] = totals[puppy] + weighted;
    totals[puppyCount + seat] = totals[puppyCount + seat] + weighted;
    if (loading !== null) totals[firstTied + puppy] = totals[firstTied + puppy] + loading[seat] * weighted;
  }
  return totals;
}

/** What the effects come to in one cell. */
export function cellEffect(
  { puppyCount, precision, loading }: CrossedSystem,
  effects: Float64Array,
  cell: { readonly puppy: number; readonly seat: number },
): number {
  const { puppy, seat } = cell;
  const tied = loading === null ? 0 : loading[seat] * effects[puppyCount + precision.length + puppy];
  return effects[puppy] + effects[puppyCount + seat] + tied;
}

/** values' V⁻¹ values; with `add`, also adds V⁻¹ values to `right`, cell i at `places[i]`. */
export function precisionForm(
  system: CrossedSystem,
  values: Float64Array,
  add: { readonly right: Float64Array; readonly places: Int32Array } | null,
): number {
  const { size, precision, factor } = system;
  const { puppies, seats } = system.cells;
  const effects = cellTotals(system, values);
  lowerSolve(factor, size, effects);
  let quadratic = 0;
  for (let node = 0; node < size; node += 1) quadratic -= effects[node] ** 2;
  for (let cell = 0; cell < values.length; cell += 1) quadratic += values[cell] ** 2 * precision[seats[cell]];
  if (add === null) return quadratic;
  const { right, places } = add;
  lowerTransposeSolve(factor, size, effects);
  for (let cell = 0; cell < values.length; cell += 1) {
    const seat = seats[cell];
    const rest = values[cell] - cellEffect(system, effects, { puppy: puppies[cell], seat });
    const place = places[cell];
    right[place] = right[place] + rest * precision[seat];
  }
  return quadratic;
}

/** Adds `times` V⁻¹ to the lower triangle of `target` (side × side), cell i at row `places[i]`; places ascend. */
export function addPrecision(
  system: CrossedSystem,
  target: { readonly matrix: Float64Array; readonly side: number },
  put: { readonly places: Int32Array; readonly times: number },
): void {
  // The innermost loop of the whole engine: everything it reads stands in a local.
  const { size, puppyCount, precision, loading } = system;
  const firstTied = puppyCount + precision.length;
  const inverse = choleskyInverse(system.factor, size);
  const { puppies, seats } = system.cells;
  const { matrix, side } = target;
  const { places, times } = put;
  const reach = new Float64Array(size);
  for (let cell = 0; cell < puppies.length; cell += 1) {
    const puppy = puppies[cell] * size;
    const seat = seats[cell];
    const node = (puppyCount + seat) * size;
    const weight = times * precision[seat];
    for (let column = 0; column < size; column += 1) {
      reach[column] = weight * (inverse[puppy + column] + inverse[node + column]);
    }
    if (loading !== null && loading[seat] > 0) {
      const [row, share] = [(firstTied + puppies[cell]) * size, weight * loading[seat]];
      for (let column = 0; column < size; column += 1) reach[column] = reach[column] + share * inverse[row + column];
    }
    const start = places[cell] * side;
    for (let other = 0; other <= cell; other += 1) {
      const otherSeat = seats[other];
      let shared = reach[puppies[other]] + reach[puppyCount + otherSeat];
      if (loading !== null) shared += loading[otherSeat] * reach[firstTied + puppies[other]];
      const at = start + places[other];
      matrix[at] = matrix[at] - shared * precision[otherSeat];
    }
    const diagonal = start + places[cell];
    matrix[diagonal] = matrix[diagonal] + weight;
  }
}
