import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bradleyTerry, type BradleyTerry } from '#lib/stats/bradleyTerry';
import { isUndefined } from '#lib/stats/coefficient';
import type { Ability } from '#lib/stats/comparisonAbilities';
import { davidson, type Davidson } from '#lib/stats/davidson';
import type { PairCounts } from '#lib/stats/pairedComparisons';
import {
  expectWithin,
  readReferenceCase,
  titled,
  type ExpectedEntry,
  type Levels,
  type ReferenceCase,
} from './referenceCase';

const ids = [
  'bt-baseball',
  'bt-baseball-home',
  'bt-citations',
  'bt-edge-not-connected',
  'bt-halfties-springall',
  'bt-ties-soundfields',
  'bt-ties-springall',
];

function pairsOf({ data }: ReferenceCase): PairCounts[] {
  const columns = data['columns'] as string[];
  return (data['rows'] as (string | number)[][]).map((row) => {
    const number = (name: string): number => Number(row[columns.indexOf(name)] ?? 0);
    const text = (name: string): string => String(row[columns.indexOf(name)]);
    const optional = (name: string): number => (columns.includes(name) ? number(name) : 0);
    const counts = {
      firstWins: number('win1'),
      secondWins: number('win2'),
      ties: optional('tie'),
      place: optional('home'),
    };
    return { first: text('item1'), second: text('item2'), ...counts };
  });
}

type Fit = BradleyTerry | Davidson;

function checkAbilities(fit: Fit, entry: ExpectedEntry): void {
  const ours: readonly Ability[] = entry.options['reference'] === undefined ? fit.centred : fit.againstFirst;
  const values = entry.values as Levels;
  const errors = entry['se'] as Levels;
  expect(ours.map(({ item }) => item)).toEqual(Object.keys(values));
  for (const { item, ability, se } of ours) {
    expectWithin(ability, values[item] ?? NaN, { tolerance: entry.tolerance, what: item });
    expectWithin(se, errors[item] ?? NaN, { tolerance: entry.tolerance, what: `${item} se` });
  }
}

function checkMatrix(got: readonly (readonly number[])[], entry: ExpectedEntry): void {
  const stored = entry.values as number[][];
  expect(stored.length).toBe(got.length);
  stored.forEach((row, i) =>
    row.forEach((value, j) =>
      expectWithin(got[i]?.[j] ?? NaN, value, { tolerance: entry.tolerance, what: `${i} ${j}` }),
    ),
  );
}

function check(fit: Fit, entry: ExpectedEntry): void {
  const within = (got: number | undefined, stored: unknown, what: string): void =>
    expectWithin(got ?? NaN, stored as number, { tolerance: entry.tolerance, what });
  const name = entry.statistic.replace(/^(bt|davidson)_/, '');
  if (name === 'ability') checkAbilities(fit, entry);
  else if (name === 'vcov') checkMatrix(fit.covariance, entry);
  else if (name === 'difference_se') checkMatrix(fit.differenceSe, entry);
  else if (name === 'loglik') within(fit.logLikelihood, entry.value, 'log-likelihood');
  else if (name === 'worth')
    Object.values(entry.values as Levels).forEach((value, i) => within(fit.worth[i], value, `worth ${i}`));
  else if (name === 'residual_deviance' && 'deviance' in fit) {
    within(fit.deviance.value, entry.value, 'deviance');
    expect(fit.deviance.df).toBe(entry['df']);
  } else if (name === 'home_effect' && 'place' in fit) {
    within(fit.place?.value, entry.value, 'place');
    within(fit.place?.se, entry['se'], 'place se');
  } else if (name === 'log_nu' && 'logNu' in fit) {
    within(fit.logNu.value, entry.value, 'log nu');
    within(fit.logNu.se, entry['se'], 'log nu se');
  } else throw new Error(`no check for ${entry.statistic}`);
}

describe.each(ids)('%s', (id) => {
  const reference = readReferenceCase(id);
  const fit = id.startsWith('bt-ties') ? davidson(pairsOf(reference)) : bradleyTerry(pairsOf(reference));
  it.each(titled(id, reference.expected))('%s', (_title, entry) => {
    if (entry.undefined === true) {
      expect(fit).toEqual({ undefined: 'an item always or never wins' });
      return;
    }
    if (isUndefined(fit)) throw new Error(fit.undefined);
    check(fit, entry);
  });
});

const pair = (first: string, second: string, [firstWins, secondWins, ties]: [number, number, number]): PairCounts => ({
  first,
  second,
  firstWins,
  secondWins,
  ties,
});

describe('comparisons without finite estimates', () => {
  it('ST1: not connected, one item, never wins, no ties, only ties', () => {
    expect(bradleyTerry([])).toEqual({ undefined: 'fewer than two items' });
    expect(bradleyTerry([pair('a', 'b', [1, 1, 0]), pair('c', 'd', [1, 1, 0])])).toEqual({
      undefined: 'items not connected',
    });
    expect(bradleyTerry([pair('a', 'b', [2, 1, 0]), pair('b', 'c', [3, 0, 0])])).toEqual({
      undefined: 'an item always or never wins',
    });
    expect(davidson([pair('a', 'b', [2, 1, 0])])).toEqual({ undefined: 'no ties' });
    expect(davidson([pair('a', 'b', [0, 0, 4])])).toEqual({ undefined: 'only ties' });
    expect(davidson([pair('a', 'b', [3, 0, 2])])).toEqual({ undefined: 'an item always or never wins' });
  });

  it('worked examples: 3 of 4 is log 3; 3, 1 and 2 ties is log 3 and nu = 2 / sqrt 3 (closed forms)', () => {
    const plain = bradleyTerry([pair('a', 'b', [3, 1, 0])]);
    if (isUndefined(plain)) throw new Error(plain.undefined);
    expect(plain.againstFirst[1]?.ability).toBeCloseTo(-Math.log(3), 10);
    const tied = davidson([pair('a', 'b', [3, 1, 2])]);
    if (isUndefined(tied)) throw new Error(tied.undefined);
    expect(tied.againstFirst[1]?.ability).toBeCloseTo(-Math.log(3), 10);
    expect(tied.logNu.value).toBeCloseTo(Math.log(2 / Math.sqrt(3)), 10);
  });

  it('ST2: the order and orientation of the records do not matter, to the last digit', () => {
    const counts = fc.array(fc.tuple(fc.nat(4), fc.nat(4), fc.nat(4), fc.nat(4), fc.nat(4)), {
      minLength: 3,
      maxLength: 10,
    });
    fc.assert(
      fc.property(counts, (rows) => {
        const pairs = rows.filter(([a, b]) => a !== b).map(([a, b, x, y, t]) => pair(`i${a}`, `i${b}`, [x, y, t]));
        const turned = [...pairs]
          .reverse()
          .map(({ first, second, firstWins, secondWins, ties }) => pair(second, first, [secondWins, firstWins, ties]));
        expect(bradleyTerry(turned)).toEqual(bradleyTerry(pairs));
        expect(davidson(turned)).toEqual(davidson(pairs));
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});
