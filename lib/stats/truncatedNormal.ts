import type { SeededRandom } from './seededRandom';

/**
 * A draw of the standard normal cut off outside [low, high], either of which may be infinite. By rejection, from the normal itself, an exponential tail or
 * an even spread, whichever fits (Robert 1995, Statistics and Computing 5: 121–125), so that far tails cost no more than the middle.
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
