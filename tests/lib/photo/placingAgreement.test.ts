import fc from 'fast-check';
import { expect, it } from 'vitest';
import { placingAgreement } from '#lib/photo/placing';
import { ratioPrompt, ratioSentence } from '#lib/photo/measureRatio';

const readings = fc.array(fc.array(fc.double({ min: 0.5, max: 2, noNaN: true }), { maxLength: 4 }), { maxLength: 5 });

it('a worked example: readings of 1.04 and 1.08 are four points apart', () => {
  const agreement = placingAgreement([
    { seat: 'a', values: [1.03, 1.04, 1.06] },
    { seat: 'b', values: [1.08] },
  ]);
  expect(agreement?.seats).toBe(2);
  expect(agreement?.median).toBeCloseTo(1.06, 10);
  expect(agreement?.between).toBeCloseTo(4, 10);
  expect(agreement?.within).toBeCloseTo(3, 10);
});

it('ST1: no reading is no agreement, and one seat agrees with nobody', () => {
  expect(placingAgreement([])).toBeNull();
  expect(placingAgreement([{ seat: 'a', values: [] }])).toBeNull();
  expect(placingAgreement([{ seat: 'a', values: [1.1] }])).toEqual({
    seats: 1,
    median: 1.1,
    between: null,
    within: null,
  });
});

it('ST2: the order of seats and of readings changes nothing', () => {
  fc.assert(
    fc.property(readings, (lists) => {
      const seats = lists.map((values, index) => ({ seat: String(index), values }));
      const turned = seats.toReversed().map(({ seat, values }) => ({ seat, values: values.toReversed() }));
      expect(placingAgreement(turned)).toEqual(placingAgreement(seats));
    }),
  );
});

it('ST4: a prompt asks for another picture only when the whole interval lies outside the band', () => {
  const band = { low: 1.05, high: 1.17 };
  const told = (low: number, high: number) =>
    ratioPrompt('length-height', { placed: low, value: low, low, high }, band);
  expect(told(1.18, 1.3)).toMatch(/^Looks long in this picture.*re-shoot\?$/);
  expect(told(0.9, 1.04)).toMatch(/^Looks short in body in this picture.*re-shoot\?$/);
  expect(told(1.1, 1.3)).toMatch(/^This picture cannot tell/);
  expect(told(1.0, 1.3)).toMatch(/^This picture cannot tell/);
  expect(told(1.06, 1.16)).toMatch(/^Within the published/);
  expect(ratioSentence('length-height', { placed: 1.1, value: 1.064, low: 0.991, high: 1.142 })).toBe(
    'In this picture body length is 1.06 times height at the withers; nine times in ten the true ratio lies between 0.99 and 1.14.',
  );
});
