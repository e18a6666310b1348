import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ratioKeys } from '#lib/photo/ratio';
import { breedProportions, figureBand, figuresOfBreed } from '#lib/sheet/breedProportions';

it('ST3: every figure names its issuing body and its edition, never a site, and says whether it was read', () => {
  expect(breedProportions.length).toBeGreaterThan(40);
  for (const { source, words, basis, ratio, published } of breedProportions) {
    expect(source).toMatch(
      /^(FCI \d+|The Kennel Club \(UK\)|American Kennel Club|Guidance of the Canadian breed club)/,
    );
    expect(source).toMatch(/\d{4}|edition/);
    expect(source + words).not.toMatch(/\.(com|org|net|it|fr|de|ca|ph|cz|pl|co)\b|https?:|www/);
    expect(['read', 'memory']).toContain(basis);
    expect(ratio === null).toBe(published === null);
    if (ratio !== null) expect(ratioKeys).toContain(ratio);
  }
});

it('no figure gives degrees: a shoulder’s angle depends on where it is measured, so it stays words and drawings', () => {
  for (const { words } of breedProportions) expect(words).not.toMatch(/°|degree|angle/i);
});

it.each([
  ['Leonberger', 'length-height', 10 / 9],
  ['leonberger', 'muzzle-skull', 1],
  ['Boxer', 'length-height', 1],
  ['Shiba', 'length-height', 1.1],
  ['Lagotto  Romagnolo', 'muzzle-skull', 0.7857],
  ['Cane Corso', 'length-height', 1.11],
])('%s %s is published as %d in its standard', (breed, ratio, value) => {
  const found = figuresOfBreed(breed).find((one) => one.ratio === ratio);
  expect(found?.published?.[0]).toBeCloseTo(value, 4);
  expect(figuresOfBreed('Hedgehog')).toEqual([]);
  expect(figuresOfBreed('')).toEqual([]);
});

it('ST4: no band is narrower than five per cent either way, and every band holds what was published', () => {
  const value = fc.double({ min: 0.3, max: 2, noNaN: true });
  fc.assert(
    fc.property(value, value, (one, other) => {
      const published = [Math.min(one, other), Math.max(one, other)] as const;
      const { low, high } = figureBand(published);
      const middle = (published[0] + published[1]) / 2;
      expect(high - low).toBeGreaterThanOrEqual(0.1 * middle - 1e-12);
      expect(low).toBeLessThanOrEqual(published[0]);
      expect(high).toBeGreaterThanOrEqual(published[1]);
    }),
  );
});
