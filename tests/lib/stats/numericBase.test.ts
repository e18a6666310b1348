import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choleskyFactor, choleskyInverse, choleskyLogDeterminant, choleskySolve } from '#lib/stats/cholesky';
import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';

describe('seeded random source', () => {
  it('ST2: the same seed gives the same draws, another seed others', () => {
    const draw = (seed: number) => {
      const random = createSeededRandom(seed);
      return [random.uniform(), random.normal(), random.normal(), random.gamma(0.4), random.below(10)];
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
  });

  it('ST2: a seed from numbers depends on values only (0 and -0 alike)', () => {
    expect(seedFromNumbers([0, 1.5])).toBe(seedFromNumbers([-0, 1.5]));
    expect(seedFromNumbers([1, 2])).not.toBe(seedFromNumbers([2, 1]));
  });

  it('ST2: moments of the draws are those of the named distributions (within five standard errors)', () => {
    const random = createSeededRandom(20);
    const n = 40_000;
    const moments = (draw: () => number) => {
      const values = Array.from({ length: n }, draw);
      const mean = values.reduce((a, b) => a + b, 0) / n;
      return { mean, variance: values.reduce((a, b) => a + (b - mean) ** 2, 0) / n };
    };
    const near = (got: number, want: number, error: number) =>
      expect(Math.abs(got - want)).toBeLessThan((5 * error) / Math.sqrt(n));
    const uniform = moments(random.uniform);
    near(uniform.mean, 0.5, Math.sqrt(1 / 12));
    near(uniform.variance, 1 / 12, Math.sqrt(1 / 180));
    const normal = moments(random.normal);
    near(normal.mean, 0, 1);
    near(normal.variance, 1, Math.SQRT2);
    for (const shape of [0.3, 1, 4.5]) {
      const gamma = moments(() => random.gamma(shape));
      near(gamma.mean, shape, Math.sqrt(shape));
      near(gamma.variance, shape, Math.sqrt(3 * shape * shape + 6 * shape - shape * shape));
    }
  });
});

describe('Cholesky', () => {
  it('solves, inverts and gives the determinant of random positive definite systems', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 8 }), fc.integer(), (n, seed) => {
        const random = createSeededRandom(seed);
        const root = Float64Array.from({ length: n * n }, () => random.normal());
        const at = (m: Float64Array, i: number, j: number) => m[i * n + j] ?? 0;
        const a = new Float64Array(n * n);
        for (let i = 0; i < n; i += 1)
          for (let j = 0; j < n; j += 1) {
            let sum = i === j ? 0.5 : 0;
            for (let k = 0; k < n; k += 1) sum += at(root, i, k) * at(root, j, k);
            a[i * n + j] = sum;
          }
        const l = Float64Array.from(a);
        expect(choleskyFactor(l, n)).toBe(true);
        const truth = Float64Array.from({ length: n }, () => random.normal());
        const b = new Float64Array(n);
        for (let i = 0; i < n; i += 1)
          for (let j = 0; j < n; j += 1) b[i] = (b[i] ?? 0) + at(a, i, j) * (truth[j] ?? 0);
        const solved = Float64Array.from(b);
        choleskySolve(l, n, solved);
        truth.forEach((value, i) => expect(solved[i]).toBeCloseTo(value, 7));
        const inverse = choleskyInverse(l, n);
        for (let i = 0; i < n; i += 1) {
          let sum = 0;
          for (let j = 0; j < n; j += 1) sum += at(inverse, i, j) * (b[j] ?? 0);
          expect(sum).toBeCloseTo(truth[i] ?? 0, 7);
        }
        expect(Number.isFinite(choleskyLogDeterminant(l, n))).toBe(true);
      }),
      { seed: 1, numRuns: 60 },
    );
  });

  it('worked example: [4 2; 2 5] has determinant 16; a singular matrix is refused', () => {
    const l = Float64Array.from([4, 2, 2, 5]);
    expect(choleskyFactor(l, 2)).toBe(true);
    expect(choleskyLogDeterminant(l, 2)).toBeCloseTo(Math.log(16), 14);
    expect(choleskyFactor(Float64Array.from([1, 1, 1, 1]), 2)).toBe(false);
    expect(choleskyFactor(Float64Array.from([-1]), 1)).toBe(false);
  });
});
