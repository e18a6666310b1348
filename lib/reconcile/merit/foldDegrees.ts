import { choleskySolve } from '#lib/stats/cholesky';
import type { CanonicalCell } from '../panel/canonicalPanel';
import {
  cellTotals,
  crossedPrior,
  crossedSystem,
  precisionForm,
  type CrossedSystem,
  type CrossedVariances,
} from './crossedSystem';
import { degreeCost } from '../panel/degreeCost';
import type { MeritPriors } from './meritPriors';
import type { PanelCriterion } from '../panel/panel';
import { posteriorMode } from './posteriorMode';

/** Turns the cells of two-sided criteria, one list a criterion, into quality in units u about the middle of the scale. */
export type DegreeFold = (degrees: DegreeTables) => readonly (readonly CanonicalCell[])[];

type DegreeTables = {
  readonly puppies: number;
  readonly seats: number;
  readonly tables: readonly { readonly criterion: PanelCriterion; readonly cells: readonly CanonicalCell[] }[];
};

/**
 * A signed degree d shares nothing of sign with quality, so it is folded: quality = 3 − cost(|d − lean|), the lean being how far this seat
 * calls every puppy too much (or too little) on this criterion. A constant lean so moves no order, and two seats that see a fault on
 * opposite sides both see a fault. Costs about two pairs in a hundred where every seat sees the same side, against a mean of signed degrees, and
 * gains nine where they do not; only in this form is a look at two puppies a look at the same quantity as merit.
 *
 * Leans are posterior means of the model d = level_c + own_pc + lean_jc + ε, all normal, its three SDs at their joint mode.
 */
export function foldDegrees(priors: MeritPriors): DegreeFold {
  return (degrees) => {
    if (degrees.tables.length === 0) return [];
    const leans = seatLeans(degrees, priors);
    return degrees.tables.map(({ criterion, cells }, at) =>
      cells.map((cell) => ({
        ...cell,
        value: 3 - degreeCost(cell.value - (leans[at]?.[cell.seat] ?? 0), criterion.cost),
      })),
    );
  };
}

type Table = {
  readonly cells: { readonly puppies: Int32Array; readonly seats: Int32Array };
  readonly values: Float64Array;
};

/** By table, the lean of each seat in degrees; drawn towards zero as far as the scores leave it open. */
function seatLeans({ puppies, seats, tables }: DegreeTables, priors: MeritPriors): Float64Array[] {
  const read = tables.map(
    ({ cells }): Table => ({
      cells: {
        puppies: Int32Array.from(cells, (cell) => cell.puppy),
        seats: Int32Array.from(cells, (cell) => cell.seat),
      },
      values: Float64Array.from(cells, (cell) => cell.value),
    }),
  );
  const systemsAt = (x: Float64Array): CrossedSystem[] => {
    const prior = crossedPrior(puppies, degreeVariances(x, seats, priors));
    return read.map(({ cells }) => crossedSystem(cells, prior));
  };
  const density = (x: Float64Array) =>
    systemsAt(x).reduce(
      (sum, system, at) =>
        sum - (system.logDeterminant + precisionForm(system, read[at]?.values ?? new Float64Array(0), null)) / 2,
      logPrior(x, priors),
    );
  const mode = posteriorMode(
    density,
    Float64Array.from([Math.log(0.5), Math.log(0.4), Math.log(priors.noise.median)]),
    Float64Array.from([0.1, 0.1, 0.05]),
  );
  return systemsAt(mode).map((system, at) => {
    const nodes = cellTotals(system, read[at]?.values ?? new Float64Array(0));
    choleskySolve(system.factor, nodes.length, nodes);
    return nodes.slice(puppies);
  });
}

/** x: log SDs of own, lean and noise, in degrees. Rounding to whole degrees is part of the noise. */
function degreeVariances(x: Float64Array, seats: number, { degreeLevel }: MeritPriors): CrossedVariances {
  const [own = 0, lean = 0, noise = 0] = x.map((log) => Math.exp(2 * log));
  const least = 1e-4;
  return {
    common: degreeLevel ** 2,
    puppy: own + least,
    seat: lean + least,
    own: Array.from({ length: seats }, () => noise + 1 / 12),
  };
}

/** Half-normal SDs of own and lean, log-normal noise, as densities of the log SDs. */
function logPrior(x: Float64Array, { puppyDegree, evaluatorLean, noise }: MeritPriors): number {
  const [own = 0, lean = 0, scatter = 0] = x;
  const half = (log: number, scale: number) => log - (Math.exp(log) / scale) ** 2 / 2;
  return (
    half(own, puppyDegree) +
    half(lean, evaluatorLean) -
    ((scatter - Math.log(noise.median)) / Math.hypot(noise.panel, noise.seat)) ** 2 / 2
  );
}
