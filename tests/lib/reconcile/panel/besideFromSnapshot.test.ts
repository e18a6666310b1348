import { expect, it } from 'vitest';
import type { Snapshot } from '#lib/contract/snapshot';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { besideFromSnapshot } from '#lib/reconcile/panel/besideFromSnapshot';
import { shortSheet } from '#lib/sheet/shippedSheets';

const id = (digit: string) => digit.repeat(32);
const puppyOf = (digit: string, withdrawn = false) =>
  ({ id: id(digit), name: digit, sex: 'bitch', collar: 'blue', secondMark: '', withdrawn }) as const;
const slotOf = (digit: string, purpose: 'keep' | 'companion') =>
  ({
    id: id(digit),
    taker: 'breeder',
    seatId: null,
    purpose,
    sex: 'any',
    condition: '',
    byWhen: '',
    ifFails: '',
  }) as const;
const check = (showing: string, seat: string, given: readonly [string, string]): Snapshot['answers'][number] => ({
  seatId: id(seat),
  subject: id(showing),
  field: `check:${given[0]}`,
  counter: 1,
  body: { kind: 'check', check: given[0], answer: given[1], detail: '' },
});
const free = (showing: string, seat: string, value: number | null): Snapshot['answers'][number] => ({
  seatId: id(seat),
  subject: id(showing),
  field: 'free:topline',
  counter: 1,
  body: { kind: 'free', criterion: 'topline', cannotJudge: value === null, value },
});

function snapshotOf(answers: Snapshot['answers']): Snapshot {
  return {
    evaluationId: id('e'),
    roundId: id('f'),
    medium: 'table',
    revealedAt: 1,
    sheet: shortSheet,
    puppies: [puppyOf('1'), puppyOf('2', true)],
    seats: [],
    purposes: [],
    slots: [slotOf('5', 'keep'), slotOf('6', 'companion')],
    cells: null,
    coded: false,
    showings: [
      { id: id('7'), puppyId: id('1'), place: 0, repeat: false },
      { id: id('8'), puppyId: id('2'), place: 1, repeat: false },
      { id: id('9'), puppyId: id('1'), place: 2, repeat: true },
    ],
    answers,
  };
}

const split = [
  check('7', 'a', ['bite', 'undershot']),
  check('7', 'b', ['bite', 'scissor']),
  check('7', 'c', ['bite', 'not-examined']),
];

it('SA1: nothing of a puppy that left, nothing not examined, and nothing a veterinary answer has settled', () => {
  const gone = snapshotOf([check('8', 'a', ['bite', 'undershot']), free('8', 'a', 3)]);
  expect(besideFromSnapshot(gone, [])).toEqual({ checks: [], stakes: [], freeStances: [] });
  const snapshot = snapshotOf(split);
  for (const choice of [null, { kind: 'cleared' }, { kind: 'stays' }] as const) {
    const holds = holdsOf(snapshot, [
      { puppyId: id('1'), check: 'bite', answer: 'said', by: 'veterinary surgeon', at: 2, choice },
    ]);
    expect(besideFromSnapshot(snapshot, holds)).toEqual({ checks: [], stakes: [], freeStances: [] });
  }
});

it('SA1: a hold that is to be looked at again is a question still, and so is what was answered before it', () => {
  const snapshot = snapshotOf(split);
  const said = { puppyId: id('1'), check: 'bite', answer: 'said', by: 'veterinary surgeon', at: 2 } as const;
  const again = holdsOf(snapshot, [
    { ...said, choice: { kind: 'cleared' } },
    { ...said, choice: { kind: 'again', on: '2026-10-10' } },
  ]);
  expect(besideFromSnapshot(snapshot, again)).toEqual(besideFromSnapshot(snapshot, holdsOf(snapshot, [])));
});

it('SA1: a standing hold is at stake in the keeps alone, and in none while a second hold stands', () => {
  const snapshot = snapshotOf(split);
  const beside = besideFromSnapshot(snapshot, holdsOf(snapshot, []));
  expect(beside.checks.map(({ evaluator, finding }) => [evaluator, finding])).toEqual([
    [id('a'), 'notNormal'],
    [id('b'), 'normal'],
  ]);
  expect(beside.stakes).toEqual([{ puppy: id('1'), check: 'bite', slots: [id('5')] }]);
  const twice = snapshotOf([...split, check('7', 'a', ['palate', 'gap'])]);
  expect(besideFromSnapshot(twice, holdsOf(twice, [])).stakes.map(({ slots }) => slots)).toEqual([[], []]);
});

it('ST3: free-stance scores are those given at the first showing', () => {
  const beside = besideFromSnapshot(snapshotOf([free('7', 'a', 2), free('7', 'b', null), free('9', 'c', 5)]), []);
  expect(beside.freeStances).toEqual([{ puppy: id('1'), evaluator: id('a'), criterion: 'topline', value: 2 }]);
});
