import fc from 'fast-check';
import { expect, it } from 'vitest';
import { repeatShowing } from '#lib/evaluation/showingOrders';

const litter = fc.uniqueArray(fc.string({ minLength: 1 }), { minLength: 4, maxLength: 12 });

it('ST2: the puppy shown twice is one of the first half, the same for the same draw, and none in a litter of three', () => {
  expect(repeatShowing(['a', 'b', 'c'], 'ffffffff')).toBeNull();
  fc.assert(
    fc.property(litter, fc.nat({ max: 0xffffffff }), (order, draw) => {
      const hex = draw.toString(16).padStart(8, '0');
      const again = repeatShowing(order, hex);
      expect(order.slice(0, Math.floor(order.length / 2))).toContain(again);
      expect(repeatShowing(order, hex)).toBe(again);
    }),
  );
});
