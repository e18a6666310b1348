import fc from 'fast-check';
import { expect, it } from 'vitest';
import { balancedOrder, repeatShowing } from '#lib/evaluation/showingOrders';

const square = (count: number, rows: number) =>
  Array.from({ length: rows }, (_, position) => balancedOrder(count, position));

it('BL4: every order holds every puppy once', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 40 }), (count, position) => {
      expect(balancedOrder(count, position).toSorted((a, b) => a - b)).toEqual(
        Array.from({ length: count }, (_, index) => index),
      );
    }),
  );
});

it('BL4: over as many seats as puppies, each puppy comes once at each place', () => {
  for (const count of [2, 3, 6, 9]) {
    const rows = square(count, count);
    for (let place = 0; place < count; place += 1) expect(new Set(rows.map((row) => row[place])).size).toBe(count);
  }
});

// Property of the published design: Williams, E. J. (1949), Australian Journal of Scientific Research A 2, 149–168 (from memory):
// one square is balanced for first-order carry-over when the count is even, a square and its mirror when it is odd.
it('BL4: each puppy follows each other one equally often: one square for even counts, two for odd', () => {
  for (const [count, rows, times] of [
    [4, 4, 1],
    [8, 8, 1],
    [5, 10, 2],
    [9, 18, 2],
  ] as const) {
    const follows = new Map<string, number>();
    for (const row of square(count, rows))
      row
        .slice(1)
        .forEach((next, index) =>
          follows.set(`${row[index]} ${next}`, (follows.get(`${row[index]} ${next}`) ?? 0) + 1),
        );
    expect(follows.size).toBe(count * (count - 1));
    expect([...follows.values()].every((seen) => seen === times)).toBe(true);
  }
});

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

it.each([
  [4, 0, [0, 1, 3, 2]],
  [4, 1, [1, 2, 0, 3]],
  [5, 0, [0, 1, 4, 2, 3]],
  [5, 4, [4, 0, 3, 1, 2]],
  [5, 5, [3, 2, 4, 1, 0]],
  [5, 10, [0, 1, 4, 2, 3]],
  [4, 4, [0, 1, 3, 2]],
  [1, 1, [0]],
  [0, 0, []],
])('BL4: the order of %i puppies for seat %i is %j', (count, position, order) => {
  expect(balancedOrder(count, position)).toEqual(order);
});

it.each([
  ['00000000', 'a'],
  ['00000001', 'b'],
  ['00000002', 'a'],
  ['0000000b', 'b'],
  ['00000001fffe', 'b'],
])('ST2: of four, the digits %s draw %s', (draw, again) => {
  expect(repeatShowing(['a', 'b', 'c', 'd'], draw)).toBe(again);
});

it('ST2: of five the first two may come again', () => {
  expect(
    new Set(['00000000', '00000001', '00000002'].map((draw) => repeatShowing(['a', 'b', 'c', 'd', 'e'], draw))),
  ).toEqual(new Set(['a', 'b']));
});
