import { expect, it } from 'vitest';
import type { PracticeAnswer } from '#lib/contract/practice';
import { decidePractice, practicePictures } from '#lib/evaluation/practice';
import { factsAt, mentor, tableHand } from '#tests/support/evaluationFacts';

// Of the short sheet: body length is scored in degrees to either side, shoulder layback on seven steps.
const degree = (value: number | null, picture: PracticeAnswer['picture'] = 'first'): PracticeAnswer => ({
  picture,
  criterion: 'body-length',
  value,
});
const step = (value: number | null): PracticeAnswer => ({ picture: 'first', criterion: 'shoulder-layback', value });

it.each([
  ['a seat that scores nothing', 'preparing', tableHand, [step(4)], 'not-allowed'],
  ['a seat that scores nothing, late', 'open', tableHand, [step(4)], 'not-allowed'],
  ['after the round has opened', 'open', mentor, [step(4)], 'wrong-phase'],
  ['after the reveal', 'revealed', mentor, [step(4)], 'wrong-phase'],
  ['without an answer', 'preparing', mentor, [], 'bad-input'],
  ['with one cell answered twice', 'preparing', mentor, [step(4), step(5)], 'bad-input'],
  [
    'of a criterion that is not offered',
    'preparing',
    mentor,
    [{ picture: 'first', criterion: 'ears', value: 0 }],
    'bad-input',
  ],
  [
    'of a criterion that is not on the sheet',
    'preparing',
    mentor,
    [step(4), { picture: 'first', criterion: 'charm', value: 1 }],
    'bad-input',
  ],
  ['below the scale', 'preparing', mentor, [step(0)], 'out-of-scale'],
  ['above the scale', 'preparing', mentor, [degree(1), step(8)], 'out-of-scale'],
  ['below three degrees', 'preparing', mentor, [degree(-4)], 'out-of-scale'],
  ['above three degrees', 'preparing', mentor, [degree(4)], 'out-of-scale'],
  [
    'the first of two faults',
    'preparing',
    mentor,
    [degree(4), { picture: 'first', criterion: 'charm', value: 1 }],
    'out-of-scale',
  ],
] as const)('BL2: practice is refused: %s', (_case, stage, seat, answers, code) => {
  expect(decidePractice(factsAt(stage), seat, answers)).toBe(code);
});

it.each([
  ['the lowest step and the highest degree', [step(1), degree(3)]],
  ['the highest step and the lowest degree', [step(7), degree(-3)]],
  ['a criterion that cannot be judged', [step(null), degree(null)]],
  ['one criterion on both pictures', [degree(0, 'first'), degree(0, 'second')]],
] as const)('BL2: practice is taken: %s', (_case, answers) => {
  expect(decidePractice(factsAt('preparing'), mentor, answers)).toBeNull();
});

it('BL2: practice has two pictures, the first first', () => {
  expect(practicePictures).toEqual(['first', 'second']);
});
