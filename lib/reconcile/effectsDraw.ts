import { lowerSolve, lowerTransposeSolve } from '#lib/stats/cholesky';
import type { ConditionalPosterior } from './conditionalPosterior';
import { cellTotals, type CrossedSystem } from './crossedSystem';
import type { PanelDesign, Pattern } from './panelDesign';

/** One joint draw of what is behind the scores, in units u about the middle of the scale. */
export type EffectsDraw = {
  /** (πβ) of each of the design's pairs. */
  readonly liking: Float64Array;
  /** Level of each seat over the one-sided criteria: β_j + mean of (βκ)_jc. */
  readonly seatLevel: Float64Array;
  /** Quality of puppy p on criterion c at [c × puppies + p]. */
  readonly quality: Float64Array;
};

/** How many standard normals one draw takes. */
export function effectsDrawSize(design: PanelDesign): number {
  const nodes = design.puppies.length + design.seats.length;
  return design.pairs.puppies.length + nodes * (1 + design.criteria.length);
}

/** The draw that belongs to standard normals z: a linear map for everything but the two-sided criteria's |d|. */
export function effectsDraw(design: PanelDesign, posterior: ConditionalPosterior, z: Float64Array): EffectsDraw {
  const [puppies, seats, pairs] = [design.puppies.length, design.seats.length, design.pairs.puppies.length];
  const field = z.slice(0, pairs);
  lowerTransposeSolve(posterior.pairFactor, pairs, field);
  for (let pair = 0; pair < pairs; pair += 1) field[pair] = (field[pair] as number) + (posterior.pairMean[pair] as number);
  const nodes = puppies + seats;
  const general = drawNodes(posterior.pairSystem, field, z.subarray(pairs, pairs + nodes));
  const quality = new Float64Array(design.criteria.length * puppies);
  const seatLevel = general.slice(puppies);
  const oneSidedCount = design.oneSided.reduce((sum, pattern) => sum + pattern.criteria.length, 0);
  let at = pairs + nodes;
  design.oneSided.forEach((pattern, index) => {
    const system = posterior.oneSided[index] as CrossedSystem;
    for (const criterion of pattern.criteria) {
      const own = drawNodes(system, withoutField(pattern, criterion.values, field), z.subarray(at, at + nodes));
      at += nodes;
      const start = criterion.index * puppies;
      for (let puppy = 0; puppy < puppies; puppy += 1) quality[start + puppy] = (general[puppy] as number) + (own[puppy] as number);
      for (let seat = 0; seat < seats; seat += 1) {
        seatLevel[seat] = (seatLevel[seat] as number) + (own[puppies + seat] as number) / oneSidedCount;
      }
    }
  });
  design.twoSided.forEach((pattern, index) => {
    const system = posterior.twoSided[index] as CrossedSystem;
    for (const criterion of pattern.criteria) {
      const degrees = drawNodes(system, criterion.values, z.subarray(at, at + nodes));
      at += nodes;
      const start = criterion.index * puppies;
      // quality = top − (top − bottom)/3 · |d|, which is 3 − 2|d| in units about the middle.
      for (let puppy = 0; puppy < puppies; puppy += 1) quality[start + puppy] = 3 - 2 * Math.abs(degrees[puppy] as number);
    }
  });
  return { liking: likings(design, field, general), seatLevel, quality };
}

/** Draws the effects of a table given the cells' values: mean A⁻¹Z'D⁻¹y, covariance A⁻¹. */
function drawNodes(system: CrossedSystem, values: Float64Array, z: Float64Array): Float64Array {
  const nodes = cellTotals(system, values);
  lowerSolve(system.factor, system.size, nodes);
  for (let node = 0; node < nodes.length; node += 1) nodes[node] = (nodes[node] as number) + (z[node] as number);
  lowerTransposeSolve(system.factor, system.size, nodes);
  return nodes;
}

function withoutField(pattern: Pattern, values: Float64Array, field: Float64Array): Float64Array {
  const rest = new Float64Array(values.length);
  for (let cell = 0; cell < values.length; cell += 1) {
    rest[cell] = (values[cell] as number) - (field[pattern.pairs[cell] as number] as number);
  }
  return rest;
}

function likings(design: PanelDesign, field: Float64Array, general: Float64Array): Float64Array {
  const liking = new Float64Array(field.length);
  for (let pair = 0; pair < field.length; pair += 1) {
    const puppy = design.pairs.puppies[pair] as number;
    const seat = design.puppies.length + (design.pairs.seats[pair] as number);
    liking[pair] = (field[pair] as number) - (general[puppy] as number) - (general[seat] as number);
  }
  return liking;
}
