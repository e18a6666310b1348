import fc from 'fast-check';
import { expect, it } from 'vitest';
import { agreementBand } from '#lib/reconcile/agreement/agreementBand';
import { criterionSpread } from '#lib/reconcile/agreement/criterionSpread';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';
import { repeatsFromSnapshot } from '#lib/reconcile/panel/repeatsFromSnapshot';
import type { Snapshot } from '#lib/contract/snapshot';
import { shortSheet } from '#lib/sheet/shippedSheets';

it('ST4: the word for agreement hangs on the interval alone: the point never changes it', () => {
  const limits = fc
    .tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true }))
    .map(([a, b]) => ({ low: Math.min(a, b), high: Math.max(a, b) }));
  fc.assert(
    fc.property(
      limits,
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.double({ min: -1, max: 1, noNaN: true }),
      (interval, one, other) => {
        expect(agreementBand({ ...interval, value: one })).toBe(agreementBand({ ...interval, value: other }));
      },
    ),
  );
});

it('ST4: no word without an interval, and none for a wide one', () => {
  expect(agreementBand(undefined)).toBe('too-few');
  expect(agreementBand({ undefined: 'one category' as never })).toBe('too-few');
  expect(agreementBand({ value: 1, low: null, high: null })).toBe('too-few');
  expect(agreementBand({ value: 0.7, low: 0.07, high: 0.85 })).toBe('too-few');
  expect(agreementBand({ value: 0.8, low: 0.62, high: 0.9 })).toBe('high');
  expect(agreementBand({ value: 0.1, low: -0.3, high: 0.4 })).toBe('low');
  expect(agreementBand({ value: 0.5, low: 0.25, high: 0.8 })).toBe('medium');
});

it('ST1: spread is in points, and no number where no puppy has two scores', () => {
  const panel = {
    scale: { low: 1, high: 7 },
    puppies: ['a', 'b', 'c'],
    evaluators: ['x', 'y', 'z'],
    criteria: [{ key: 'neck', twoSided: false }],
    scores: [
      { puppy: 'a', evaluator: 'x', criterion: 'neck', value: 2 },
      { puppy: 'a', evaluator: 'y', criterion: 'neck', value: 5 },
      { puppy: 'a', evaluator: 'z', criterion: 'neck', value: 4 },
      { puppy: 'b', evaluator: 'x', criterion: 'neck', value: 4 },
      { puppy: 'b', evaluator: 'y', criterion: 'neck', value: 5 },
      { puppy: 'c', evaluator: 'x', criterion: 'neck', value: 1 },
    ],
  };
  // Worked by hand: ranges 3 and 1; pairs 3, 2, 1 and 1, of which two lie within a point.
  expect(criterionSpread(panel, 'neck')).toEqual({ spread: 2, withinOne: 0.5, seats: 3 });
  expect(criterionSpread(panel, 'tail')).toEqual({ spread: null, withinOne: null, seats: 0 });
});

it('ST2: a card marked "not a fair day", a withdrawn puppy, a repeat and "cannot judge" leave no score', () => {
  const id = (digit: string) => digit.repeat(32);
  const criterion = shortSheet.criteria[0]?.key ?? '';
  const score = (seat: string, subject: string, value: number | null) => ({
    seatId: id(seat),
    subject: id(subject),
    field: `score:${criterion}`,
    counter: 1,
    body: { kind: 'score', criterion, value, cannotJudge: value === null } as const,
  });
  const face = (digit: string, withdrawn: boolean) =>
    ({ id: id(digit), name: digit, sex: 'dog', collar: 'none', secondMark: '', withdrawn }) as const;
  const seat = (digit: string, kind: 'hands' | 'none') => ({
    id: id(digit),
    label: digit,
    kind,
    position: 0,
    locked: true,
    reissued: false,
    typed: false,
  });
  const snapshot: Snapshot = {
    evaluationId: id('e'),
    roundId: id('f'),
    medium: 'table',
    revealedAt: 1,
    sheet: shortSheet,
    slots: [],
    purposes: [],
    puppies: [face('a', false), face('b', true)],
    seats: [seat('1', 'hands'), seat('2', 'hands'), seat('3', 'none')],
    cells: null,
    coded: false,
    showings: [
      { id: id('4'), puppyId: id('a'), place: 0, repeat: false },
      { id: id('5'), puppyId: id('b'), place: 1, repeat: false },
      { id: id('6'), puppyId: id('a'), place: 2, repeat: true },
    ],
    answers: [
      score('1', '4', 3),
      score('1', '5', 2),
      score('1', '6', 1),
      score('2', '4', 2),
      {
        seatId: id('2'),
        subject: id('4'),
        field: 'fair',
        counter: 1,
        body: { kind: 'fair', fair: false, why: 'tired' },
      },
    ],
  };
  const panel = panelFromSnapshot(snapshot);
  expect(panel.scores).toEqual([{ puppy: id('a'), evaluator: id('1'), criterion, value: 3 }]);
  expect([panel.puppies, panel.evaluators]).toEqual([[id('a')], [id('1'), id('2')]]);
  expect(repeatsFromSnapshot(snapshot)).toEqual([{ puppy: id('a'), evaluator: id('1'), criterion, value: 1 }]);
  const tired = {
    seatId: id('1'),
    subject: id('6'),
    field: 'fair',
    counter: 1,
    body: { kind: 'fair', fair: false, why: 'tired' },
  } as const;
  expect(repeatsFromSnapshot({ ...snapshot, answers: [...snapshot.answers, tired] })).toEqual([]);
});
