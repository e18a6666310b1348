import { choleskySolve, lowerSolve, lowerTransposeSolve } from '#lib/stats/cholesky';
import type { ConditionalPosterior } from './conditionalPosterior';
import { cellTotals, type CrossedSystem } from './crossedSystem';
import type { PanelDesign, Pattern } from './panelDesign';

/** What is behind the scores, in units u about the middle of the scale; or one draw's deviation from its mean. */
export type Effects = {
  /** π of each puppy. */
  readonly general: Float64Array;
  /** (πβ) of each of the design's pairs. */
  readonly liking: Float64Array;
  /** Level of each seat over the one-sided criteria: β_j + mean of (βκ)_jc. */
  readonly seatLevel: Float64Array;
  /** Quality of puppy p on criterion c at [c × puppies + p]; for a two-sided criterion its degree d. */
  readonly standing: Float64Array;
};

/** How many standard normals one draw takes. */
export function effectsDrawSize(design: PanelDesign): number {
  const nodes = design.puppies.length + design.seats.length;
  return design.pairs.puppies.length + nodes * (1 + design.criteria.length);
}

/** Posterior means given the SDs. */
export function effectsMean(design: PanelDesign, posterior: ConditionalPosterior): Effects {
  const field = posterior.pairMean;
  const general = cellTotals(posterior.pairSystem, field);
  choleskySolve(posterior.pairSystem.factor, general.length, general);
  const effects = emptyEffects(design, field, general);
  forTables(design, posterior, ({ pattern, system, add }) => {
    const known = pattern.pairs.length > 0 ? placed(pattern, field) : null;
    for (const { index, values } of pattern.criteria) {
      const nodes = cellTotals(system, known ? values.map((value, cell) => value - (known[cell])) : values);
      choleskySolve(system.factor, nodes.length, nodes);
      add(effects, index, nodes);
    }
  });
  return effects;
}

/** One draw's deviation from the means, linear in the standard normals z: mean + deviation and mean − deviation are both draws. */
export function effectsDeviation(design: PanelDesign, posterior: ConditionalPosterior, z: Float64Array): Effects {
  const pairs = design.pairs.puppies.length;
  const field = z.slice(0, pairs);
  lowerTransposeSolve(posterior.pairFactor, pairs, field);
  let at = pairs;
  // Thousands of draws pass here: one array serves every table, and nothing keeps it.
  const scratch = new Float64Array(posterior.pairSystem.size);
  const nodesFrom = (system: CrossedSystem, pull: Float64Array | null) => {
    const nodes = scratch;
    for (let node = 0; node < system.size; node += 1) nodes[node] = (z[at + node]) + (pull === null ? 0 : (pull[node]));
    at += system.size;
    lowerTransposeSolve(system.factor, system.size, nodes);
    return nodes;
  };
  const general = nodesFrom(posterior.pairSystem, pullOf(posterior.pairSystem, field));
  const effects = emptyEffects(design, field, general);
  // A table explains what the pair effects leave: where they deviate upwards, it deviates downwards.
  const below = field.map((value) => -value);
  forTables(design, posterior, ({ pattern, system, add }) => {
    const pull = pattern.pairs.length > 0 ? pullOf(system, placed(pattern, below)) : null;
    for (const { index } of pattern.criteria) add(effects, index, nodesFrom(system, pull));
  });
  return effects;
}

/** What cell values pull the effects by, in the coordinates of the factor. */
function pullOf(system: CrossedSystem, values: Float64Array): Float64Array {
  const pull = cellTotals(system, values);
  lowerSolve(system.factor, system.size, pull);
  return pull;
}

/** Values of the pairs at the cells of a pattern. */
function placed(pattern: Pattern, field: Float64Array): Float64Array {
  const values = new Float64Array(pattern.pairs.length);
  for (let cell = 0; cell < values.length; cell += 1) values[cell] = field[pattern.pairs[cell]];
  return values;
}

type Table = {
  readonly pattern: Pattern;
  readonly system: CrossedSystem;
  /** Writes the nodes of one criterion's table where they belong. */
  readonly add: (effects: Effects, criterion: number, nodes: Float64Array) => void;
};

function forTables(design: PanelDesign, posterior: ConditionalPosterior, visit: (table: Table) => void): void {
  const [puppies, seats] = [design.puppies.length, design.seats.length];
  const oneSided = design.oneSided.reduce((sum, pattern) => sum + pattern.criteria.length, 0);
  const standings = ({ standing }: Effects, criterion: number, nodes: Float64Array) => {
    const start = criterion * puppies;
    for (let puppy = 0; puppy < puppies; puppy += 1) standing[start + puppy] = (standing[start + puppy]) + (nodes[puppy]);
  };
  const levels = ({ seatLevel }: Effects, nodes: Float64Array) => {
    for (let seat = 0; seat < seats; seat += 1) seatLevel[seat] = (seatLevel[seat]) + (nodes[puppies + seat]) / oneSided;
  };
  const addOneSided: Table['add'] = (effects, criterion, nodes) => {
    const start = criterion * puppies;
    for (let puppy = 0; puppy < puppies; puppy += 1) effects.standing[start + puppy] = effects.general[puppy];
    standings(effects, criterion, nodes);
    levels(effects, nodes);
  };
  design.oneSided.forEach((pattern, at) => visit({ pattern, system: posterior.oneSided[at], add: addOneSided }));
  design.twoSided.forEach((pattern, at) => visit({ pattern, system: posterior.twoSided[at], add: standings }));
}

function emptyEffects(design: PanelDesign, field: Float64Array, nodes: Float64Array): Effects {
  const puppies = design.puppies.length;
  const liking = new Float64Array(field.length);
  for (let pair = 0; pair < field.length; pair += 1) {
    const puppy = design.pairs.puppies[pair];
    const seat = puppies + (design.pairs.seats[pair]);
    liking[pair] = (field[pair]) - (nodes[puppy]) - (nodes[seat]);
  }
  const standing = new Float64Array(design.criteria.length * puppies);
  return { liking, general: nodes.slice(0, puppies), seatLevel: nodes.slice(puppies), standing };
}
