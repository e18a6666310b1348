import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { belowFloor, isMissed, scoreOf } from '../support/mutationScore.mjs';
import { mutationParts } from './mutation.mjs';

const mutants = (fileName: string, ...statuses: string[]) => statuses.map((status) => ({ fileName, status }));

it('a group of files fails where fewer mutants than its floor were found, whatever another group shows, and where there was none', () => {
  const groups = { low: ['a', 'b'], high: ['c'], none: ['d'] };
  const all = [
    ...mutants('a', 'Killed', 'Survived'),
    ...mutants('b', 'Timeout', 'NoCoverage'),
    ...mutants('c', 'Killed', 'Killed', 'Killed', 'Killed', 'Survived'),
    ...mutants('d', 'Ignored'),
  ];
  expect(belowFloor(groups, all, 80)).toEqual(['low', 'none']);
  expect(belowFloor(groups, all, 50)).toEqual(['none']);
});

it('what a comment excuses or could not be run counts on neither side', () => {
  expect(
    scoreOf(mutants('a', 'Killed', 'Timeout', 'Survived', 'NoCoverage', 'Ignored', 'CompileError', 'RuntimeError')),
  ).toEqual({ counted: 4, killed: 2, apart: 3, percent: 50 });
  expect(
    mutants('a', 'Killed', 'Timeout', 'Survived', 'NoCoverage', 'Ignored')
      .filter(isMissed)
      .map(({ status }) => status),
  ).toEqual(['Survived', 'NoCoverage']);
});

it('every rule and every view is mutated, and of the numbers a sample of twelve files that the seed alone draws', () => {
  const { rules, numbers } = mutationParts;
  expect(Object.keys(rules.groups)).toEqual(['lib/access', 'lib/blind', 'lib/evaluation']);
  expect(rules.groups['lib/evaluation']).toContain('lib/evaluation/entries.ts');
  expect(numbers.groups['lib/stats']).toHaveLength(12);
  for (const file of [...Object.values(rules.groups), ...Object.values(numbers.groups)].flat())
    expect([file, existsSync(new URL(`../../${file}`, import.meta.url))]).toEqual([file, true]);
});

/** Types alone: nothing there runs. */
const without = ['lib/evaluation/facts.ts'];

it('every file of rules and views that runs has a test that bears its name', () => {
  const files = Object.values(mutationParts.rules.groups)
    .flat()
    .filter((file) => !without.includes(file));
  expect(
    files.filter((file) => !existsSync(new URL(`../${file.replace(/\.ts$/, '.test.ts')}`, import.meta.url))),
  ).toEqual([]);
});
