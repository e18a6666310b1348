import { describe, expect, it } from 'vitest';
import { normalCdf } from '#lib/stats/normalDistribution';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { truncatedNormal } from '#lib/stats/truncatedNormal';

const DRAWS = 20_000;

describe('truncatedNormal', () => {
  it.each([
    [-Infinity, Infinity],
    [0, Infinity],
    [1.2, Infinity],
    [6, Infinity],
    [-Infinity, -6],
    [-Infinity, 0.4],
    [-0.3, 0.4],
    [3, 3.7],
    [-2, 2.5],
    [-9, -8.3],
  ])(
    'ST3: from %s to %s: inside, with the mean that the density has, (φ(low) − φ(high)) / (Φ(high) − Φ(low))',
    (low, high) => {
      const random = createSeededRandom(7);
      const draws = Array.from({ length: DRAWS }, () => truncatedNormal([low, high], random));
      expect(draws.every((value) => value >= low && value <= high)).toBe(true);
      // Both from the side where the tail is not lost to rounding.
      const mass = low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
      const density = (x: number) => Math.exp(-(x ** 2) / 2) / Math.sqrt(2 * Math.PI);
      const mean = (density(low) - density(high)) / mass;
      expect(Math.abs(draws.reduce((sum, value) => sum + value, 0) / DRAWS - mean)).toBeLessThan(0.03);
    },
  );
});
