import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Panel } from '#lib/reconcile/panel/panel';
import { roundShift } from '#lib/reconcile/talk/roundShift';

const cell = { puppy: 'fern', criterion: 'neck' };
const panelOf = (scores: readonly number[]): Panel => ({
  scale: { low: 1, high: 7 },
  puppies: ['fern'],
  evaluators: scores.map((_, at) => `seat${at}`),
  criteria: [{ key: 'neck', twoSided: false }],
  scores: scores.map((value, at) => ({ ...cell, evaluator: `seat${at}`, value })),
});
const shift = (before: readonly number[], after: readonly number[]) =>
  roundShift([cell], panelOf(before), panelOf(after).scores).cells[0];

it('ST4: agreement that rose because every other seat came over to one that stayed is called one voice, and no other is', () => {
  expect(shift([2, 5, 6], [2, 2, 3])).toMatchObject({ kind: 'oneVoice', voice: 'seat0', before: 4, after: 1 });
  expect(shift([2, 6], [2, 3])).toMatchObject({ kind: 'oneVoice', voice: 'seat0' });
  expect(shift([2, 4, 6], [3, 4, 5])).toMatchObject({ kind: 'together', voice: null });
  expect(shift([2, 6], [4, 4])).toMatchObject({ kind: 'together', voice: null });
  expect(shift([2, 2, 6], [2, 2, 3])).toMatchObject({ kind: 'together', voice: null });
  expect(shift([3, 4], [2, 6])).toMatchObject({ kind: 'apart' });
  expect(shift([3, 4], [4, 3])).toMatchObject({ kind: 'unchanged' });
  expect(shift([3], [4])).toMatchObject({ kind: 'tooFew', before: null, after: null });
});

it('ST1: seats that did not answer again are left out; a pull below five cells is too few data, never a number', () => {
  const found = roundShift([cell], panelOf([2, 5, 6]), panelOf([2, 5]).scores);
  expect(found.cells[0]?.seats).toBe(2);
  expect(found.pulls.every(({ pull }) => 'undefined' in pull)).toBe(true);
});

it('ST2: the order of seats and cells changes nothing but the order of the answer', () => {
  const scores = fc.array(fc.tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 7 })), {
    minLength: 2,
    maxLength: 6,
  });
  fc.assert(
    fc.property(scores, (pairs) => {
      const straight = shift(
        pairs.map(([before]) => before),
        pairs.map(([, after]) => after),
      );
      const back = pairs.toReversed();
      const reversed = shift(
        back.map(([before]) => before),
        back.map(([, after]) => after),
      );
      expect([reversed?.kind, reversed?.before, reversed?.after]).toEqual([
        straight?.kind,
        straight?.before,
        straight?.after,
      ]);
    }),
  );
});

it('ST4: when all come wholly over to one seat its pull is 1 and every other seat’s is smaller', () => {
  const cells = Array.from({ length: 6 }, (_, at) => ({ puppy: `p${at}`, criterion: 'neck' }));
  const first: Panel = {
    ...panelOf([2, 5, 7]),
    puppies: cells.map(({ puppy }) => puppy),
    scores: cells.flatMap(({ puppy }) =>
      [2, 5, 7].map((value, at) => ({ puppy, criterion: 'neck', evaluator: `seat${at}`, value })),
    ),
  };
  const second = first.scores.map((score) => ({ ...score, value: 2 }));
  const pulls = roundShift(cells, first, second).pulls.map(({ pull }) =>
    'undefined' in pull ? Number.NaN : pull.value,
  );
  expect(pulls[0]).toBeCloseTo(1, 12);
  expect(Math.max(pulls[1] ?? 1, pulls[2] ?? 1)).toBeLessThan(0.5);
});
