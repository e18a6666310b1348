import { expect, it } from 'vitest';
import type { Snapshot } from '#lib/contract/snapshot';
import { mergedSnapshot } from '#lib/reconcile/panel/mergedSnapshot';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';
import { shortSheet } from '#lib/sheet/shippedSheets';

const id = (digit: string) => digit.repeat(32);
const puppy = (digit: string) =>
  ({ id: id(digit), name: digit, sex: 'dog', collar: 'none', secondMark: '', withdrawn: false }) as const;
const seat = (digit: string) =>
  ({ id: id(digit), label: digit, kind: 'hands', position: 0, locked: true, reissued: false, typed: false }) as const;
const score = (seatId: string, showing: string, value: number | null): Snapshot['answers'][number] => ({
  seatId: id(seatId),
  subject: id(showing),
  field: 'score:neck',
  counter: 1,
  body: { kind: 'score', criterion: 'neck', value, cannotJudge: value === null },
});

function snapshot(showings: readonly (readonly [string, string])[], answers: Snapshot['answers']): Snapshot {
  return {
    evaluationId: id('e'),
    roundId: id('f'),
    medium: 'table',
    revealedAt: 1,
    sheet: shortSheet,
    puppies: [puppy('a'), puppy('b')],
    seats: [seat('1'), seat('2')],
    showings: showings.map(([showing, of], place) => ({ id: id(showing), puppyId: id(of), place, repeat: false })),
    cells: null,
    coded: false,
    slots: [],
    purposes: [],
    answers,
  };
}

const first = snapshot(
  [
    ['7', 'a'],
    ['8', 'b'],
  ],
  [score('1', '7', 2), score('2', '7', -1), score('1', '8', 0)],
);
const values = (merged: Snapshot) =>
  panelFromSnapshot(merged)
    .scores.map(({ puppy: of, evaluator, value }) => [of[0], evaluator[0], value])
    .toSorted();

it('ST2: a second score takes the place of the first in its cell and seat; everything else stands', () => {
  const second = snapshot([['9', 'a']], [score('1', '9', 1)]);
  expect(values(mergedSnapshot(first, second))).toEqual([
    ['a', '1', 1],
    ['a', '2', -1],
    ['b', '1', 0],
  ]);
  expect(values(mergedSnapshot(first, null))).toEqual([
    ['a', '1', 2],
    ['a', '2', -1],
    ['b', '1', 0],
  ]);
});

it('ST2: “cannot judge” the second time is an answer, and a cleared one is none', () => {
  expect(values(mergedSnapshot(first, snapshot([['9', 'a']], [score('1', '9', null)])))).toEqual([
    ['a', '2', -1],
    ['b', '1', 0],
  ]);
  const cleared: Snapshot['answers'][number] = {
    ...score('1', '9', null),
    body: { kind: 'score', criterion: 'neck', value: null, cannotJudge: false },
  };
  expect(values(mergedSnapshot(first, snapshot([['9', 'a']], [cleared])))).toEqual([
    ['a', '1', 2],
    ['a', '2', -1],
    ['b', '1', 0],
  ]);
});
