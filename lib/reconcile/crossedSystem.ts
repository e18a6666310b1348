import { choleskyFactor, choleskyInverse, choleskyLogDeterminant, lowerSolve, lowerTransposeSolve } from '#lib/stats/cholesky';
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
};

/** What tables that share their variances have in common, whatever their cells. */
export type CrossedPrior = {
  readonly size: number;
  readonly puppyCount: number;
  /** One over the own variance, by seat, and its log. */
  readonly precision: Float64Array;
  readonly logPrecision: Float64Array;
  /** Precision of the effects before any cell (lower triangle), and the log determinant of its inverse. */
  readonly effectsPrecision: Float64Array;
  readonly logDeterminant: number;
};

/**
 * Cells of one table with puppy and seat effects, covariance V = common 11' + puppy Zp Zp' + seat Zj Zj' + D.
 * `factor` is the Cholesky factor of A, the posterior precision of the effects (common + puppy_p for each puppy, then seat_j).
 */
export type CrossedSystem = {
  readonly cells: Cells;
  readonly size: number;
  readonly puppyCount: number;
  readonly factor: Float64Array;
  /** One over the own variance, by seat. */
  readonly precision: Float64Array;
  /** log |V| over the cells. */
  readonly logDeterminant: number;
};

export function crossedPrior(puppyCount: number, variances: CrossedVariances): CrossedPrior {
  const precision = Float64Array.from(variances.own, (variance) => 1 / variance);
  return {
    size: puppyCount + variances.own.length,
    puppyCount,
    precision,
    logPrecision: precision.map(Math.log),
    effectsPrecision: priorPrecision(puppyCount, variances),
    logDeterminant: priorLogDeterminant(puppyCount, variances),
  };
}

/** Builds A by the Woodbury identity: V⁻¹ = D⁻¹ − D⁻¹ Z A⁻¹ Z' D⁻¹. Cost is cubic in puppies + seats, not in cells. */
export function crossedSystem(cells: Cells, prior: CrossedPrior): CrossedSystem {
  const { size, puppyCount, precision, logPrecision } = prior;
  const { puppies, seats } = cells;
  const a = prior.effectsPrecision.slice();
  let { logDeterminant } = prior;
  for (let cell = 0; cell < puppies.length; cell += 1) {
    const puppy = puppies[cell];
    const seat = seats[cell];
    const weight = precision[seat];
    const node = puppyCount + seat;
    a[puppy * size + puppy] = (a[puppy * size + puppy]) + weight;
    a[node * size + node] = (a[node * size + node]) + weight;
    a[node * size + puppy] = (a[node * size + puppy]) + weight;
    logDeterminant -= logPrecision[seat];
  }
  invariant(choleskyFactor(a, size), 'the effects of a table have a positive definite precision');
  logDeterminant += choleskyLogDeterminant(a, size);
  return { cells, size, puppyCount, factor: a, precision, logDeterminant };
}

/** Precision of (common + puppy_p) is that of puppy I + common 11', by Sherman and Morrison. */
function priorPrecision(puppyCount: number, { common, puppy, seat, own }: CrossedVariances): Float64Array {
  const size = puppyCount + own.length;
  const a = new Float64Array(size * size);
  const shared = -common / (puppy * (puppy + puppyCount * common));
  for (let row = 0; row < puppyCount; row += 1) {
    for (let column = 0; column <= row; column += 1) a[row * size + column] = shared;
    a[row * size + row] = shared + 1 / puppy;
  }
  for (let node = puppyCount; node < size; node += 1) a[node * size + node] = 1 / seat;
  return a;
}

/** log |prior covariance of the effects|. */
function priorLogDeterminant(puppyCount: number, { common, puppy, seat, own }: CrossedVariances): number {
  if (puppyCount === 0) return own.length * Math.log(seat);
  return (puppyCount - 1) * Math.log(puppy) + Math.log(puppy + puppyCount * common) + own.length * Math.log(seat);
}

/** Z' D⁻¹ values: what the cells say to each effect. */
export function cellTotals(system: CrossedSystem, values: Float64Array): Float64Array {
  const { size, puppyCount, precision } = system;
  const { puppies, seats } = system.cells;
  const totals = new Float64Array(size);
  for (let cell = 0; cell < values.length; cell += 1) {
    const puppy = puppies[cell];
    const seat = seats[cell];
    const weighted = (values[cell]) * (precision[seat]);
    totals[puppy] = (totals[puppy]) + weighted;
    totals[puppyCount + seat] = (totals[puppyCount + seat]) + weighted;
  }
  return totals;
}

/** values' V⁻¹ values; with `add`, also adds V⁻¹ values to `right`, cell i at `places[i]`. */
export function precisionForm(
  system: CrossedSystem,
  values: Float64Array,
  add: { readonly right: Float64Array; readonly places: Int32Array } | null,
): number {
  const { size, puppyCount, precision, factor } = system;
  const { puppies, seats } = system.cells;
  const effects = cellTotals(system, values);
  lowerSolve(factor, size, effects);
  let quadratic = 0;
  for (let node = 0; node < size; node += 1) quadratic -= (effects[node]) ** 2;
  for (let cell = 0; cell < values.length; cell += 1) quadratic += (values[cell]) ** 2 * (precision[seats[cell]]);
  if (add === null) return quadratic;
  const { right, places } = add;
  lowerTransposeSolve(factor, size, effects);
  for (let cell = 0; cell < values.length; cell += 1) {
    const seat = seats[cell];
    const rest = (values[cell]) - (effects[puppies[cell]]) - (effects[puppyCount + seat]);
    const place = places[cell];
    right[place] = (right[place]) + rest * (precision[seat]);
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
  const { size, puppyCount, precision } = system;
  const inverse = choleskyInverse(system.factor, size);
  const { puppies, seats } = system.cells;
  const { matrix, side } = target;
  const { places, times } = put;
  const reach = new Float64Array(size);
  for (let cell = 0; cell < puppies.length; cell += 1) {
    const puppy = (puppies[cell]) * size;
    const seat = seats[cell];
    const node = (puppyCount + seat) * size;
    const weight = times * (precision[seat]);
    for (let column = 0; column < size; column += 1) {
      reach[column] = weight * ((inverse[puppy + column]) + (inverse[node + column]));
    }
    const start = (places[cell]) * side;
    for (let other = 0; other <= cell; other += 1) {
      const otherSeat = seats[other];
      const shared = (reach[puppies[other]]) + (reach[puppyCount + otherSeat]);
      const at = start + (places[other]);
      matrix[at] = (matrix[at]) - shared * (precision[otherSeat]);
    }
    const diagonal = start + (places[cell]);
    matrix[diagonal] = (matrix[diagonal]) + weight;
  }
}
