import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawOrder } from '../../../app/setup/OrderPart';

describe('drawOrder', () => {
  it('keeps every id once', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.string(), { maxLength: 20 }), (ids) => {
        expect(drawOrder(ids).toSorted()).toEqual(ids.toSorted());
      }),
    );
  });

  it('draws each order of three about equally often', () => {
    const draws = 6000;
    const seen = new Map<string, number>();
    for (let draw = 0; draw < draws; draw += 1) {
      const order = drawOrder(['a', 'b', 'c']).join('');
      seen.set(order, (seen.get(order) ?? 0) + 1);
    }
    const expected = draws / 6;
    const chiSquared = ['abc', 'acb', 'bac', 'bca', 'cab', 'cba'].reduce(
      (sum, order) => sum + ((seen.get(order) ?? 0) - expected) ** 2 / expected,
      0,
    );
    // Chi-squared with 5 degrees of freedom exceeds 36.3 once in a million fair runs (computed by integrating its density).
    expect(chiSquared).toBeLessThan(36.3);
  });
});
