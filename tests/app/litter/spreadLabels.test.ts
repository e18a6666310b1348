import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spreadLabels } from '../../../app/litter/GrowthPicture';

describe('spreadLabels', () => {
  it('leaves labels alone that stand apart already', () => {
    expect(spreadLabels([200, 40, 100], { gap: 20, least: 0, most: 300 })).toEqual([200, 40, 100]);
  });

  it('keeps any labels that fit apart, inside, and in the order of what they name', () => {
    const gap = 20;
    const heights = fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(heights, (wanted) => {
        const placed = spreadLabels(wanted, { gap, least: 0, most: 400 });
        const order = wanted
          .map((height, index) => ({ height, at: placed[index] ?? Number.NaN }))
          .sort((a, b) => a.height - b.height || a.at - b.at);
        for (const [index, label] of order.entries()) {
          expect(label.at).toBeGreaterThanOrEqual(0);
          expect(label.at).toBeLessThanOrEqual(400);
          const before = order[index - 1];
          if (before) expect(label.at - before.at).toBeGreaterThanOrEqual(gap);
        }
      }),
    );
  });
});
