import { choleskySolve, lowerSolve, lowerTransposeSolve } from '#lib/stats/cholesky';
import type { ConditionalPosterior } from './conditionalPosterior';
import { cellEffect, cellTotals, effectsCount, type CrossedSystem } from './crossedSystem';
import type { PanelDesign, Pattern } from './panelDesign';

/** What is behind the scores, in units u about the middle of the scale; or one draw's deviation from its mean. */
export type Effects = {
  /** π of each puppy. */
  readonly general: Float64Array;
  /** (πβ) of each of the design's pairs. */
  readonly liking: Float64Array;
  /** Level of each seat over the criteria, in quality: β_j + mean of (βκ)_jc. */
  readonly seatLevel: Float64Array;
  /** Quality of puppy p on criterion c at [c × puppies + p]. */
  readonly standing: Float64Array;
};

/** How many standard normals one draw takes. */
export function effectsDrawSize(design: PanelDesign): number {
  const nodes = effectsCount(
    design.puppies.length,
    design.seats.length,
    design.repeats.some((share) => share > 0),
  );
  return design.pairs.puppies.length + nodes * (1 + design.criteria.length);
}

/** Posterior means given the SDs. */
export function effectsMean(design: PanelDesign, posterior: ConditionalPosterior): Effects {
  const field = posterior.pairMean;
  const general = cellTotals(posterior.pairSystem, field);
  choleskySolve(posterior.pairSystem.factor, general.length, general);
  const effects = emptyEffects(design, field, general);
  forTables(design, posterior, ({ pattern, system, add }) => {
    const known = placed(pattern, field);
    for (const { index, values } of pattern.criteria) {
      const nodes = cellTotals(
        system,
        values.map((value, cell) => value - known[cell]),
      );
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
  const nodesFrom = (system: CrossedSystem, pull: Float64Array) => {
    const nodes = scratch;
    for (let node = 0; node < system.size; node += 1) nodes[node] = z[at + node] + pull[node];
    at += system.size;
    lowerTransposeSolve(system.factor, system.size, nodes);
    return nodes;
  };
  const general = nodesFrom(posterior.pairSystem, pullOf(posterior.pairSystem, field));
  const effects = emptyEffects(design, field, general);
  // A table explains what the pair effects leave: where they deviate upwards, it deviates downwards.
  const below = field.map((value) => -value);
  forTables(design, posterior, ({ pattern, system, add }) => {
    const pull = pullOf(system, placed(pattern, below));
    for (const { index } of pattern.criteria) add(effects, index, nodesFrom(system, pull));
  });
  return effects;
}

/** What a linear form of likings and standings reads: a weight for each. */
export type EffectsForm = Pick<Effects, 'liking' | 'standing'>;

/** The transpose of `effectsDeviation`: the form's value at any deviation is the product of this with its standard normals, so a form's variance is its square. */
export function effectsTranspose(
  design: PanelDesign,
  posterior: ConditionalPosterior,
  form: EffectsForm,
): Float64Array {
  const [puppies, pairs] = [design.puppies.length, design.pairs.puppies.length];
  const z = new Float64Array(effectsDrawSize(design));
  const { pairSystem } = posterior;
  const field = form.liking.slice();
  const general = z.subarray(pairs, pairs + pairSystem.size);
  form.standing.forEach((weight, at) => {
    general[at % puppies] = general[at % puppies] + weight;
  });
  form.liking.forEach((weight, pair) => {
    const [puppy, seat] = [design.pairs.puppies[pair], puppies + design.pairs.seats[pair]];
    general[puppy] = general[puppy] - weight;
    general[seat] = general[seat] - weight;
  });
  lowerSolve(pairSystem.factor, pairSystem.size, general);
  addPulled(field, { system: pairSystem, nodes: general, places: null, sign: 1 });
  let at = pairs + pairSystem.size;
  forTables(design, posterior, ({ pattern, system }) => {
    const all = new Float64Array(system.size);
    for (const { index } of pattern.criteria) {
      const nodes = z.subarray(at, at + system.size);
      for (let puppy = 0; puppy < puppies; puppy += 1) nodes[puppy] = form.standing[index * puppies + puppy];
      lowerSolve(system.factor, system.size, nodes);
      for (let node = 0; node < system.size; node += 1) all[node] = all[node] + nodes[node];
      at += system.size;
    }
    addPulled(field, { system, nodes: all, places: pattern.pairs, sign: -1 });
  });
  lowerSolve(posterior.pairFactor, pairs, field);
  z.set(field);
  return z;
}

type Pulled = {
  readonly system: CrossedSystem;
  readonly nodes: Float64Array;
  readonly places: Int32Array | null;
  readonly sign: number;
};

/** The transpose of `pullOf`, added to the pairs at the system's cells. */
function addPulled(field: Float64Array, { system, nodes, places, sign }: Pulled): void {
  const totals = nodes.slice();
  lowerTransposeSolve(system.factor, system.size, totals);
  const { puppies, seats } = system.cells;
  for (let cell = 0; cell < puppies.length; cell += 1) {
    const seat = seats[cell];
    const value = cellEffect(system, totals, { puppy: puppies[cell], seat }) * system.precision[seat];
    const pair = places === null ? cell : places[cell];
    field[pair] = field[pair] + sign * value;
  }
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
  const judged = [...design.oneSided, ...design.folded].reduce((sum, pattern) => sum + pattern.criteria.length, 0);
  const add: Table['add'] = ({ general, standing, seatLevel }, criterion, nodes) => {
    const start = criterion * puppies;
    for (let puppy = 0; puppy < puppies; puppy += 1) standing[start + puppy] = general[puppy] + nodes[puppy];
    for (let seat = 0; seat < seats; seat += 1) seatLevel[seat] = seatLevel[seat] + nodes[puppies + seat] / judged;
  };
  design.oneSided.forEach((pattern, at) => visit({ pattern, system: posterior.oneSided[at], add }));
  design.folded.forEach((pattern, at) => visit({ pattern, system: posterior.folded[at], add }));
}

function emptyEffects(design: PanelDesign, field: Float64Array, nodes: Float64Array): Effects {
  const puppies = design.puppies.length;
  const liking = new Float64Array(field.length);
  for (let pair = 0; pair < field.length; pair += 1) {
    const puppy = design.pairs.puppies[pair];
    const seat = puppies + design.pairs.seats[pair];
    liking[pair] = field[pair] - nodes[puppy] - nodes[seat];
  }
  const standing = new Float64Array(design.criteria.length * puppies);
  return {
    liking,
    general: nodes.slice(0, puppies),
    seatLevel: nodes.slice(puppies, puppies + design.seats.length),
    standing,
  };
}
