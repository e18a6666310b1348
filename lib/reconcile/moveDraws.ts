import type { SeededRandom } from '#lib/stats/seededRandom';
import { createDrawer, type DrawSource, type JointDraws } from './jointDraws';
import { lookLogLikelihood, type Lift, type LookScale } from './lookLikelihood';

const CHAINS = 500;
/** Steps of a chain, from the posterior of the scores towards that of scores and looks. */
const STEPS = 12;
const MOST_TRIES = 40;

/**
 * Draws of the posterior of scores and second looks together, each from a chain of its own that keeps its values of the SDs: looks tell of
 * puppies, and the shares of the SDs stay as the scores have them. Given the SDs a draw is made of standard normals z, so a chain moves by elliptical
 * slice sampling (Murray, Adams and MacKay 2010): old z and fresh ones span an ellipse, and the next z is a point of it the looks allow.
 */
export function moveDraws(source: DrawSource, ask: { readonly scale: LookScale; readonly lifts: readonly Lift[]; readonly random: SeededRandom }): JointDraws {
  const { random } = ask;
  const one = createDrawer(source, 1);
  const all = createDrawer(source, CHAINS);
  const isHeld = heldNormals(source, one.size - source.plan.extra);
  for (let chain = 0; chain < CHAINS; chain += 1) {
    const point = Math.floor(((chain + 0.5) / CHAINS) * source.points.length);
    const logOf = (z: Float64Array) => {
      one.write(0, { point, z });
      return lookLogLikelihood(source.plan, ask.scale, { draws: one.draws, row: 0, lifts: ask.lifts });
    };
    let at = { z: normals(one.size, random), log: 0 };
    at.log = logOf(at.z);
    for (let step = 0; step < STEPS; step += 1) at = turned(at, { logOf, isHeld, random });
    all.write(chain, { point, z: at.z });
  }
  return all.draws;
}

/** Places of the normals that make the liking SD of a seat without scores: an SD too, and so never moved. */
function heldNormals({ plan }: DrawSource, effects: number): (at: number) => boolean {
  const held = new Set(plan.likings.flatMap((liking) => (liking.kind === 'stranger' ? [effects + liking.sdDraw] : [])));
  return (at) => held.has(at);
}

type State = { readonly z: Float64Array; log: number };

/** One step: angles are drawn from an arc that closes in on the old point until the looks are at least as likely as the level drawn. */
function turned(old: State, by: { readonly logOf: (z: Float64Array) => number; readonly isHeld: (at: number) => boolean; readonly random: SeededRandom }): State {
  const { random } = by;
  const level = old.log + Math.log(random.uniform());
  const fresh = normals(old.z.length, random);
  let angle = 2 * Math.PI * random.uniform();
  let [low, high] = [angle - 2 * Math.PI, angle];
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
    const z = old.z.map((value, at) => (by.isHeld(at) ? value : cosine * value + sine * (fresh[at] as number)));
    const log = by.logOf(z);
    if (log >= level) return { z, log };
    if (angle < 0) low = angle;
    else high = angle;
    angle = low + (high - low) * random.uniform();
  }
  return old;
}

function normals(size: number, random: SeededRandom): Float64Array {
  return Float64Array.from({ length: size }, () => random.normal());
}
