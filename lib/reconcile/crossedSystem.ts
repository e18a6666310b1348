import { choleskyFactor, choleskyInverse, choleskyLogDeterminant } from '#lib/stats/cholesky';
import { invariant } from '#lib/invariant';
import type { Cells } from './panelDesign';

/** Variances of cell (p, j) = common + puppy_p + seat_j + own_pj. */
export type CrossedVariances = {
  readonly common: number;
  readonly puppy: number;
  readonly seat: number;
  /** Own variance of a cell, by seat. */
  readonly own: readonly number[];
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
  readonly inverse: Float64Array;
  /** One over the own variance, by seat. */
  readonly precision: Float64Array;
  /** log |V| over the cells. */
  readonly logDeterminant: number;
};

/** Builds A by the Woodbury identity: V⁻¹ = D⁻¹ − D⁻¹ Z A⁻¹ Z' D⁻¹. Cost is cubic in puppies + seats, not in cells. */
export function crossedSystem(cells: Cells, puppyCount: number, variances: CrossedVariances): CrossedSystem {
  const size = puppyCount + variances.own.length;
  const precision = Float64Array.from(variances.own, (variance) => 1 / variance);
  const logPrecision = precision.map(Math.log);
  const a = priorPrecision(size, puppyCount, variances);
  let logDeterminant = priorLogDeterminant(puppyCount, variances);
  for (let cell = 0; cell < cells.puppies.length; cell += 1) {
    const puppy = cells.puppies[cell] as number;
    const seat = cells.seats[cell] as number;
    const weight = precision[seat] as number;
    const node = puppyCount + seat;
    a[puppy * size + puppy] = (a[puppy * size + puppy] as number) + weight;
    a[node * size + node] = (a[node * size + node] as number) + weight;
    a[node * size + puppy] = (a[node * size + puppy] as number) + weight;
    logDeterminant -= logPrecision[seat] as number;
  }
  invariant(choleskyFactor(a, size), 'the effects of a table have a positive definite precision');
  logDeterminant += choleskyLogDeterminant(a, size);
  return { cells, size, puppyCount, factor: a, inverse: choleskyInverse(a, size), precision, logDeterminant };
}

/** Precision of (common + puppy_p) is that of puppy I + common 11', by Sherman and Morrison. */
function priorPrecision(size: number, puppyCount: number, variances: CrossedVariances): Float64Array {
  const a = new Float64Array(size * size);
  const { common, puppy, seat } = variances;
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
  const totals = new Float64Array(system.size);
  const { puppies, seats } = system.cells;
  for (let cell = 0; cell < values.length; cell += 1) {
    const puppy = puppies[cell] as number;
    const seat = seats[cell] as number;
    const weighted = (values[cell] as number) * (system.precision[seat] as number);
    totals[puppy] = (totals[puppy] as number) + weighted;
    totals[system.puppyCount + seat] = (totals[system.puppyCount + seat] as number) + weighted;
  }
  return totals;
}

/** V⁻¹ values, and the quadratic form values' V⁻¹ values. */
export function applyPrecision(system: CrossedSystem, values: Float64Array): { readonly product: Float64Array; readonly quadratic: number } {
  const totals = cellTotals(system, values);
  const { size, inverse, puppyCount } = system;
  const effects = new Float64Array(size);
  for (let row = 0; row < size; row += 1) {
    let sum = 0;
    for (let column = 0; column < size; column += 1) sum += (inverse[row * size + column] as number) * (totals[column] as number);
    effects[row] = sum;
  }
  const product = new Float64Array(values.length);
  let quadratic = 0;
  for (let cell = 0; cell < values.length; cell += 1) {
    const puppy = system.cells.puppies[cell] as number;
    const seat = system.cells.seats[cell] as number;
    const rest = (values[cell] as number) - (effects[puppy] as number) - (effects[puppyCount + seat] as number);
    product[cell] = rest * (system.precision[seat] as number);
    quadratic += (product[cell] as number) * (values[cell] as number);
  }
  return { product, quadratic };
}

/** Adds `times` V⁻¹ to the lower triangle of `target` (side × side), cell i at row `places[i]`; places ascend. */
export function addPrecision(
  system: CrossedSystem,
  target: { readonly matrix: Float64Array; readonly side: number },
  put: { readonly places: Int32Array; readonly times: number },
): void {
  // The innermost loop of the whole engine: everything it reads stands in a local.
  const { size, inverse, puppyCount, precision } = system;
  const { puppies, seats } = system.cells;
  const { matrix, side } = target;
  const { places, times } = put;
  const reach = new Float64Array(size);
  for (let cell = 0; cell < puppies.length; cell += 1) {
    const puppy = (puppies[cell] as number) * size;
    const seat = seats[cell] as number;
    const node = (puppyCount + seat) * size;
    const weight = times * (precision[seat] as number);
    for (let column = 0; column < size; column += 1) {
      reach[column] = weight * ((inverse[puppy + column] as number) + (inverse[node + column] as number));
    }
    const start = (places[cell] as number) * side;
    for (let other = 0; other <= cell; other += 1) {
      const otherSeat = seats[other] as number;
      const shared = (reach[puppies[other] as number] as number) + (reach[puppyCount + otherSeat] as number);
      const at = start + (places[other] as number);
      matrix[at] = (matrix[at] as number) - shared * (precision[otherSeat] as number);
    }
    const diagonal = start + (places[cell] as number);
    matrix[diagonal] = (matrix[diagonal] as number) + weight;
  }
}
