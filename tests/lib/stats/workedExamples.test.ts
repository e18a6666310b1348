import { describe, expect, it } from 'vitest';
import { fitMixedModel } from '#lib/stats/fitMixedModel';
import { kendallTau } from '#lib/stats/kendallTau';
import { intercept, labelledFactor } from '#lib/stats/mixedModel';
import { spearman } from '#lib/stats/spearman';
import { examplesOf, exportsOf, faultsOf, sourceOf, statisticsFiles } from '../../support/workedExamples';

/** What examples may name: every export of the room. */
const known: Record<string, unknown> = {};
for (const file of statisticsFiles) Object.assign(known, await import(`#lib/stats/${file.replace(/\.ts$/, '')}`));

const faultsIn = (...docstring: readonly string[]): string[] =>
  examplesOf('planted.ts', ['/**', ...docstring.map((line) => ` * ${line}`), ' */'].join('\n')).flatMap((example) =>
    faultsOf(example, known),
  );

describe('examples in docstrings', () => {
  it.each(statisticsFiles)('ST3: the examples of %s give what they say', (file) => {
    expect(examplesOf(file, sourceOf(file)).flatMap((example) => faultsOf(example, known))).toEqual([]);
  });

  it.each(statisticsFiles)('ST3: every function of %s has an example', (file) => {
    const source = sourceOf(file);
    // An example that ends in a value is compared with it; one that only prepares shows nothing.
    const lines = examplesOf(file, source).flatMap((example) =>
      typeof example.lines.at(-1)?.written === 'string' ? example.lines : [],
    );
    const found = exportsOf(source);
    expect(found.length).toBeGreaterThan(0);
    const shown = (name: string): boolean =>
      lines.some(({ expression }) => new RegExp(String.raw`\b${name}\(`).test(expression));
    expect(found.filter(({ name, isFunction }) => isFunction && !shown(name)).map(({ name }) => name)).toEqual([]);
  });

  it('an example that is wrong in a value, a digit, a length, a key or a reason is noticed', () => {
    expect(faultsIn('@example', 'normalCdf(1.96) // 0.9750')).toEqual([]);
    expect(faultsIn('@example', 'midRanks([5, 3, 5]) // [2.5, 1, 2.4]')).toEqual([
      'planted.ts:3 midRanks([5, 3, 5]) gives [2.5,1,2.5], not [2.5, 1, 2.4]',
    ]);
    expect(faultsIn('@example', 'normalCdf(1.96) // 0.9751')).toHaveLength(1);
    expect(faultsIn('@example', 'normalCdf(1.96) // 0.97500')).toEqual([]);
    expect(faultsIn('@example', 'normalCdf(1.96) // 0.975000')).toHaveLength(1);
    expect(faultsIn('@example', 'normalCdf(0) // 1')).toHaveLength(1);
    expect(faultsIn('@example', 'chiSquareUpperTail(100, 2) // 1.9288e-22')).toHaveLength(1);
    expect(faultsIn('@example', 'midRanks([5, 3, 5]) // [2.5, 1]')).toHaveLength(1);
    expect(faultsIn('@example', 'raterPair([[1, 2]], [0, 1]) // { "first": [1], "second": [2] }')).toHaveLength(1);
    expect(
      faultsIn('@example', 'krippendorffAlpha([[1], [2]], \'nominal\') // { "undefined": "no scores" }'),
    ).toHaveLength(1);
    expect(faultsIn('@example', 'spearman({ first: [1, 2], second: [3, 3] }) // 0')).toHaveLength(1);
  });

  it('an example that cannot be run fails, and what is no example is not run', () => {
    expect(() => faultsIn('@example', 'notKnown(1) // 1')).toThrow('notKnown');
    expect(
      faultsIn(
        '@example Prepared on one line, used on the next.',
        'const a = [3, 1]',
        'midRanks(a) // [2, 1]',
        '',
        'notKnown(1) // 1',
      ),
    ).toEqual([]);
    expect(faultsIn('notKnown(1) // 1')).toEqual([]);
  });
});

it('ST1: a correlation with a side that does not vary, or of one pair, is null', () => {
  for (const correlation of [spearman, kendallTau]) {
    expect(correlation({ first: [1, 2, 3], second: [4, 4, 4] })).toBeNull();
    expect(correlation({ first: [5, 5], second: [1, 2] })).toBeNull();
    expect(correlation({ first: [1], second: [2] })).toBeNull();
    expect(correlation({ first: [1, 2, 3], second: [30, 20, 10] })).toBeCloseTo(-1, 14);
  }
});

it('ST1: REML says why there is no fit: nothing varies, no observation left over, a fixed effect twice', () => {
  const factors = [labelledFactor('group', ['a', 'a', 'b', 'b'])];
  expect(fitMixedModel({ response: [2, 2, 2, 2], fixed: [intercept(4)], factors })).toEqual({
    undefined: 'no variation',
  });
  expect(fitMixedModel({ response: [1], fixed: [intercept(1)], factors: [] })).toEqual({
    undefined: 'too few observations',
  });
  expect(fitMixedModel({ response: [1, 2, 3, 5], fixed: [intercept(4), intercept(4)], factors })).toEqual({
    undefined: 'fixed effects not estimable',
  });
});
