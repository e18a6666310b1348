import type { SeededRandom } from './seededRandom';

/**
 * A draw of the standard normal given that it falls in [low, high]; either limit may be infinite.
 *
 * By rejection, from whichever of three sources fits the interval: the normal itself; an exponential with rate
 * (low + √(low² + 4)) / 2 for a one-sided tail; an even spread for a short interval. So far tails cost no more
 * than the middle.
 *
 * In: limits in standard deviations, low < high, and the source of chance. Out: a number within them.
 * For a normal of mean μ and deviation σ, give (limit − μ) / σ and take μ + σ · draw.
 *
 * Source: Robert 1995, Simulation of truncated normal variables, Statistics and Computing 5: 121–125.
 *
 * @example Beyond 8 the mean excess is small, about 1/8: the normal itself would hardly ever get there.
 * const random = createSeededRandom(1)
 * const draws = Array.from({ length: 2000 }, () => truncatedNormal([8, Infinity], random))
 * [Math.min(...draws) > 8, draws.reduce((sum, draw) => sum + draw / 2000, 0) < 8.2] // [true, true]
 * Math.abs(truncatedNormal([-0.1, 0.1], random)) <= 0.1 // true
 */
export function truncatedNormal([low, high]: readonly [number, number], random: SeededRandom): number {
  if (low === -Infinity && high === Infinity) return random.normal();
  if (low === -Infinity || high <= 0) return -truncatedNormal([-high, -low], random);
  if (high === Infinity) return low > 0.5 ? inTail(low, random) : within([low, high], random);
  return low < 0.5 && high - low > 1.5 ? within([low, high], random) : spreadEvenly([low, high], random);
}

function within([low, high]: readonly [number, number], random: SeededRandom): number {
  for (;;) {
    const value = random.normal();
    if (value >= low && value <= high) return value;
  }
}

function inTail(low: number, random: SeededRandom): number {
  const rate = (low + Math.sqrt(low * low + 4)) / 2;
  for (;;) {
    const value = low - Math.log(random.uniform()) / rate;
    if (random.uniform() <= Math.exp(-((value - rate) ** 2) / 2)) return value;
  }
}

function spreadEvenly([low, high]: readonly [number, number], random: SeededRandom): number {
  const nearest = low > 0 ? low : high < 0 ? high : 0;
  for (;;) {
    const value = low + (high - low) * random.uniform();
    if (random.uniform() <= Math.exp((nearest * nearest - value * value) / 2)) return value;
  }
}
