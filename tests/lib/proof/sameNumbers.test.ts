import { expect, it } from 'vitest';
import { sameNumbers } from '#lib/proof/sameNumbers';

it('ST2: two results are the same within a millionth, and in nothing else', () => {
  const one = { merit: [{ puppy: 'Fern', estimate: 0.5 }], none: null };
  expect(sameNumbers(one, { none: null, merit: [{ puppy: 'Fern', estimate: 0.5 + 4e-7 }] })).toBe(true);
  expect(sameNumbers(one, { ...one, merit: [{ puppy: 'Fern', estimate: 0.50001 }] })).toBe(false);
  expect(sameNumbers(one, { ...one, merit: [{ puppy: 'Moss', estimate: 0.5 }] })).toBe(false);
  expect(sameNumbers(one, { ...one, more: 1 })).toBe(false);
  expect(sameNumbers(one, { merit: one.merit })).toBe(false);
  expect(sameNumbers([1, 2], { 0: 1, 1: 2 })).toBe(false);
  expect(sameNumbers(1_000_000, 1_000_000.5)).toBe(true);
  expect(sameNumbers(Number.NaN, Number.NaN)).toBe(false);
});
