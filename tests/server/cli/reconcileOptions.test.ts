import { describe, expect, it } from 'vitest';
import { reconcileOptions } from '#server/cli/reconcileOptions';

describe('options of reconcile', () => {
  it.each([
    [
      '--scale',
      ['7..1', '1..1', '1-7', '1..', '1..7.5', '0..101', 'one..seven'],
      '--scale wants whole numbers LOW..HIGH, at most 100 steps apart, such as 1..7.',
    ],
    ['--two-sided', ['neck,neck', 'neck,', ',', ' '], '--two-sided wants criteria separated by commas, each once.'],
    [
      '--cost',
      ['1,3', '0,1,2', '3,2,6', '1,3,7', 'a,b,c', '1,3,6,7', '-1,3,6'],
      '--cost wants what 1, 2 and 3 degrees cost in sixths of the scale, rising from above 0 to at most 6, such as 1,3,6.',
    ],
    ['--keep', ['0', '-1', '1.5', '101', 'two'], '--keep wants a whole number from 1 to 100.'],
    [
      '--weights',
      ['neck', 'neck=', '=2', 'neck=-1', 'neck=1,neck=2', 'neck=1e3', 'neck=NaN', 'neck=1,'],
      '--weights wants criterion=number separated by commas, each once, no number below 0, such as neck=2,coat=0.5.',
    ],
  ])('%s refuses what it cannot read', (option, values, fault) => {
    for (const value of values) expect(reconcileOptions([option, value, 'a.csv']), value).toEqual({ fault });
  });

  it('are by default 1..7, nothing two-sided, one to keep, equal weights, a table', () => {
    expect(reconcileOptions(['a.csv'])).toEqual({
      scale: { low: 1, high: 7 },
      twoSided: new Set(),
      cost: null,
      keep: 1,
      weights: new Map(),
      json: false,
      files: ['a.csv'],
    });
  });

  it('are read as given, names as the files spell them', () => {
    expect(
      reconcileOptions([
        '--scale',
        '-3..10',
        '--two-sided',
        'neck, e\u0301ar',
        '--cost',
        '1, 2.5,6',
        '--keep',
        '12',
        '--weights',
        'neck = .5,a=b=2,coat=0',
        '--json',
        'a.csv',
        'b.csv',
      ]),
    ).toEqual({
      scale: { low: -3, high: 10 },
      twoSided: new Set(['neck', '\u00e9ar']),
      cost: [1, 2.5, 6],
      keep: 12,
      weights: new Map([
        ['neck', 0.5],
        ['a=b', 2],
        ['coat', 0],
      ]),
      json: true,
      files: ['a.csv', 'b.csv'],
    });
  });
});
