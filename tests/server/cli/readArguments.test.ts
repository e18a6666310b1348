import { describe, expect, it } from 'vitest';
import { readArguments } from '#server/cli/readArguments';

const known = { flags: ['--json'], values: ['--scale', '--keep'] };
const read = (...args: string[]) => readArguments(args, known);

describe('arguments of a command', () => {
  it.each([
    [[], 'Name at least one file.'],
    [['--json'], 'Name at least one file.'],
    [['--'], 'Name at least one file.'],
    [['--skale', '1..7', 'a.csv'], 'There is no option --skale. Options: --scale, --keep, --json.'],
    [['-j', 'a.csv'], 'There is no option -j. Options: --scale, --keep, --json.'],
    [['a.csv', '--keep'], 'The option --keep needs a value.'],
    [['--keep', '--json', 'a.csv'], 'The option --keep needs a value.'],
    [['--keep=', 'a.csv'], 'The option --keep needs a value.'],
    [['--json=yes', 'a.csv'], 'The option --json takes no value.'],
    [['--keep', '1', '--keep=2', 'a.csv'], 'The option --keep is given twice.'],
    [['--json', '--json', 'a.csv'], 'The option --json is given twice.'],
  ])('are refused in one line: %j', (args, fault) => {
    expect(read(...args)).toEqual({ fault });
  });

  it('are sorted wherever they stand, with values that start with a dash and files that do', () => {
    const expected = {
      flags: new Set(['--json']),
      values: new Map([
        ['--scale', '-3..3'],
        ['--keep', '2'],
      ]),
      files: ['a.csv', '-', 'b.csv', '--json'],
    };
    expect(read('a.csv', '--scale', '-3..3', '-', '--json', '--keep=2', '--', 'b.csv', '--json')).toEqual(expected);
    expect(read('--keep', '2', '--json', '--scale=-3..3', 'a.csv', '-', '--', 'b.csv', '--json')).toEqual(expected);
  });
});
