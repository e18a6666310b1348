import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quality } from '#lib/sheet/sheet';

describe('quality', () => {
  it('SA2: on a two-sided criterion the top lies in the middle and both ends are equally low', () => {
    const steps = [-3, -2, -1, 0, 1, 2, 3].map((degree) => quality(degree, { twoSided: true, low: 1, high: 7 }));
    expect(steps).toEqual([1, 3, 5, 7, 5, 3, 1]);
    expect(quality(-3, { twoSided: true, low: 0, high: 10 })).toBeCloseTo(0, 12);
    expect(quality(1.5, { twoSided: true, low: 1, high: 5 })).toBeCloseTo(3, 12);
  });

  it('SA2: on a one-sided criterion it is the score itself', () => {
    expect([1, 4, 7].map((score) => quality(score, { twoSided: false, low: 1, high: 7 }))).toEqual([1, 4, 7]);
  });

  it('SA2: a step further from the middle never gains, whatever the scale', () => {
    const degree = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        degree,
        degree,
        fc.integer({ min: -5, max: 5 }),
        fc.integer({ min: 2, max: 10 }),
        (a, b, low, span) => {
          const rule = { twoSided: true, low, high: low + span };
          const [near, far] = Math.abs(a) <= Math.abs(b) ? [a, b] : [b, a];
          expect(quality(near, rule)).toBeGreaterThanOrEqual(quality(far, rule) - 1e-12);
          expect(quality(far, rule)).toBeGreaterThanOrEqual(low - 1e-9);
          expect(quality(near, rule)).toBeLessThanOrEqual(low + span);
        },
      ),
    );
  });
});
