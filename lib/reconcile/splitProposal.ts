import type { SeededRandom } from '#lib/stats/seededRandom';
import type { LogDensity } from './posteriorMode';

/**
 * Split Student proposal (Geweke 1989): x = mode + S z, each z a Student coordinate stretched differently to either side, because
 * the log of an SD that the data hardly show has a long lower tail.
 */
export type SplitProposal = {
  readonly mode: Float64Array;
  readonly shape: Float64Array;
  readonly up: Float64Array;
  readonly down: Float64Array;
};

const FREEDOM = 8;
/** Distance, in SDs of the normal approximation, at which each side's stretch is read off. */
const PROBE = 1.5;

export function splitProposal(density: LogDensity, mode: Float64Array, shape: Float64Array): SplitProposal {
  const middle = density(mode);
  const stretch = (axis: number, side: number) => {
    const loss = middle - density(along({ mode, shape }, axis, side * PROBE));
    return Math.min(3, Math.max(0.5, PROBE / Math.sqrt(2 * Math.max(loss, 1e-3))));
  };
  return { mode, shape, up: mode.map((_, axis) => stretch(axis, 1)), down: mode.map((_, axis) => stretch(axis, -1)) };
}

/** One point and the log density of having proposed it, up to a constant. */
export function propose(proposal: SplitProposal, random: SeededRandom): { readonly point: Float64Array; readonly logDensity: number } {
  const { mode, shape, up, down } = proposal;
  const size = mode.length;
  const scale = Math.sqrt(FREEDOM / (2 * random.gamma(FREEDOM / 2)));
  const point = Float64Array.from(mode);
  let [squares, logStretch] = [0, 0];
  for (let axis = 0; axis < size; axis += 1) {
    const z = random.normal() * scale;
    const stretch = (z >= 0 ? up[axis] : down[axis]) as number;
    squares += z * z;
    logStretch += Math.log(stretch);
    for (let row = 0; row < size; row += 1) point[row] = (point[row] as number) + (shape[row * size + axis] as number) * z * stretch;
  }
  return { point, logDensity: -((FREEDOM + size) / 2) * Math.log1p(squares / FREEDOM) - logStretch };
}

function along(proposal: { mode: Float64Array; shape: Float64Array }, axis: number, distance: number): Float64Array {
  const size = proposal.mode.length;
  return proposal.mode.map((value, row) => value + distance * (proposal.shape[row * size + axis] as number));
}
