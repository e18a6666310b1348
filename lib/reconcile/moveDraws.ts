import type { SeededRandom } from '#lib/stats/seededRandom';
import { createDrawer, type DrawSource, type JointDraws } from './jointDraws';
import { lookLogLikelihood, type LookScale } from './lookLikelihood';
import { effectiveDraws, relativeWeights } from './relativeWeights';

/** Draws moved to the posterior of scores and second looks together; `distinct` of them differ. */
export type MovedDraws = { readonly draws: JointDraws; readonly distinct: number };

/** One joint draw as what it was made of: which variance point, which standard normals. */
type Particle = { readonly point: number; readonly z: Float64Array; readonly log: number };

const PARTICLES = 600;
const MOVES = 4;
const MOST_STAGES = 30;
/** Sizes of the moves, tried in turn: shares of fresh noise mixed into z. */
const STEPS = [0.6, 0.35, 0.2, 0.1];

/**
 * Sequential Monte Carlo (Del Moral, Doucet and Jasra 2006): the looks' likelihood is let in by stages that keep half of the particles
 * effective; after each stage particles are resampled and moved. A move mixes fresh noise into z (preconditioned Crank-Nicolson, Cotter et
 * al. 2013) and may change the variance point; both leave the posterior of the scores as it is, so that only the looks decide.
 */
export function moveDraws(source: DrawSource, ask: { readonly scale: LookScale; readonly random: SeededRandom }): MovedDraws {
  const { random } = ask;
  const one = createDrawer(source, 1);
  const evaluate = (point: number, z: Float64Array): Particle => {
    one.write(0, { point, z });
    return { point, z, log: lookLogLikelihood(source.plan, ask.scale, { draws: one.draws, row: 0 }) };
  };
  let particles = Array.from({ length: PARTICLES }, () => evaluate(random.below(source.points.length), normals(one.size, random)));
  let power = 0;
  for (let stage = 0; power < 1 && stage < MOST_STAGES; stage += 1) {
    const logs = Float64Array.from(particles, ({ log }) => log);
    const step = stage === MOST_STAGES - 1 ? 1 - power : nextStep(logs, 1 - power);
    power += step;
    particles = resampled(particles, relativeWeights(logs, step), random);
    for (let move = 0; move < MOVES; move += 1) {
      const share = STEPS[move % STEPS.length] ?? 0.2;
      particles = particles.map((particle) => {
        const proposal = evaluate(
          move % 2 === 0 ? random.below(source.points.length) : particle.point,
          mixed(particle.z, share, random),
        );
        return Math.log(random.uniform()) < power * (proposal.log - particle.log) ? proposal : particle;
      });
    }
  }
  const all = createDrawer(source, particles.length);
  particles.forEach((particle, row) => all.write(row, particle));
  return { draws: all.draws, distinct: new Set(particles).size };
}

/** The largest further power, up to `left`, at which half of the particles stay effective. */
function nextStep(logs: Float64Array, left: number): number {
  const enough = (step: number) => effectiveDraws(relativeWeights(logs, step)) >= logs.length / 2;
  if (enough(left)) return left;
  let [low, high] = [0, left];
  for (let halving = 0; halving < 25; halving += 1) {
    const middle = (low + high) / 2;
    if (enough(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function resampled(particles: readonly Particle[], weights: Float64Array, random: SeededRandom): Particle[] {
  const chosen: Particle[] = [];
  let passed = random.uniform();
  particles.forEach((particle, at) => {
    passed += weights[at];
    while (chosen.length + 1 <= passed && chosen.length < particles.length) chosen.push(particle);
  });
  const last = particles.at(-1);
  while (last && chosen.length < particles.length) chosen.push(last);
  return chosen;
}

function mixed(z: Float64Array, share: number, random: SeededRandom): Float64Array {
  const kept = Math.sqrt(1 - share * share);
  return z.map((value) => kept * value + share * random.normal());
}

function normals(size: number, random: SeededRandom): Float64Array {
  return Float64Array.from({ length: size }, () => random.normal());
}
