import { describe, expect, it } from 'vitest';
import { pairsCommand } from '#server/cli/pairs';
import { expectWithin, readReferenceCase } from '#tests/lib/stats/referenceCase';
import { recordedOutput, scoreFiles } from './scoreFiles';

const write = scoreFiles();
const heading = 'first,second,choice';

async function run(...args: string[]) {
  const output = recordedOutput();
  const status = await pairsCommand(args, output);
  return { status, answers: output.answers, complaints: output.complaints };
}

/** One line a comparison, from counts of first wins, second wins and ties. */
function csvOfCounts(rows: readonly (readonly [string, string, number, number, number?])[]): string[] {
  return rows.flatMap(([first, second, firstWins, secondWins, ties = 0]) => [
    ...Array<string>(firstWins).fill(`${first},${second},first`),
    ...Array<string>(secondWins).fill(`${first},${second},second`),
    ...Array<string>(ties).fill(`${first},${second},tie`),
  ]);
}
const rowsOf = (id: string) => readReferenceCase(id).data['rows'] as [string, string, number, number, number?][];

describe('pairs refuses', () => {
  it.each([
    [[], 'Name at least one file.'],
    [['a.csv', 'b.csv'], 'Name one file only.'],
    [['--scale', '1..7', 'a.csv'], 'There is no option --scale. Options: --json.'],
  ])('arguments it cannot follow, in one line and with status 2: %j', async (args, fault) => {
    expect(await run(...args)).toEqual({ status: 2, answers: [], complaints: [fault] });
  });

  it('a bad file, with line and column and nothing else', async () => {
    const bad = write('bad.csv', `${heading}\na,b,first\na,b,won\na,a,tie\n`);
    expect(await run('--json', bad)).toEqual({
      status: 1,
      complaints: [],
      answers: [
        JSON.stringify({
          file: bad,
          error: { line: 3, column: 3, message: 'The choice is first, second or tie.', more: 1 },
        }),
      ],
    });
    expect(await run(bad)).toEqual({
      status: 1,
      answers: [],
      complaints: [`${bad}:3:3: The choice is first, second or tie. (and 1 more)`],
    });
  });
});

describe('pairs answers', () => {
  it.each([
    ['bt-citations', 'bt_ability', 'bt_loglik', null],
    ['bt-ties-springall', 'davidson_ability', 'davidson_loglik', 'davidson_log_nu'],
  ])(
    '%s: abilities that sum to zero, errors and likelihood as the reference packages give them',
    async (id, ability, likelihood, tie) => {
      const { expected } = readReferenceCase(id);
      const { status, answers } = await run(
        '--json',
        write(`${id}.csv`, [heading, ...csvOfCounts(rowsOf(id))].join('\n')),
      );
      expect(status).toBe(0);
      const found = JSON.parse(answers[0] ?? '') as {
        items: { item: string; ability: number; se: number }[];
        logNu: number | null;
        logLikelihood: number;
      };
      const centred =
        expected.find(({ statistic, options }) => statistic === ability && options['constraint'] === 'sum to zero') ??
        expect.unreachable();
      for (const { item, ability: value, se } of found.items) {
        expectWithin(value, (centred.values as Record<string, number>)[item] ?? NaN, {
          tolerance: centred.tolerance,
          what: item,
        });
        expectWithin(se, (centred['se'] as Record<string, number>)[item] ?? NaN, {
          tolerance: centred.tolerance,
          what: `error of ${item}`,
        });
      }
      expect(found.items.map((one) => one.ability)).toEqual(
        found.items.map((one) => one.ability).toSorted((a, b) => b - a),
      );
      expect(found.items.reduce((sum, one) => sum + one.ability, 0)).toBeCloseTo(0, 9);
      expect(found.logLikelihood).toBeCloseTo(
        expected.find(({ statistic }) => statistic === likelihood)?.value ?? NaN,
        6,
      );
      if (tie === null) expect(found.logNu).toBeNull();
      else expect(found.logNu).toBeCloseTo(expected.find(({ statistic }) => statistic === tie)?.value ?? NaN, 7);
    },
  );

  it('ST1: a reason where no finite estimate exists', async () => {
    // Ford 1957: the wins of bt-edge-not-connected lead away from one item only.
    const path = write('edge.csv', [heading, ...csvOfCounts(rowsOf('bt-edge-not-connected'))].join('\n'));
    expect(await run('--json', path)).toEqual({
      status: 0,
      complaints: [],
      answers: ['{"undefined":"an item always or never wins"}'],
    });
    expect((await run(path)).answers).toEqual(['No finite estimates: an item always or never wins.']);
    const ties = write('ties.csv', `${heading}\na,b,tie\n`);
    expect((await run('--json', ties)).answers).toEqual(['{"undefined":"only ties"}']);
  });

  it('ST2: the same bytes whatever the order of the lines and of the two names', async () => {
    const lines = csvOfCounts(rowsOf('bt-ties-springall'));
    const path = write('order.csv', [heading, ...lines].join('\n'));
    const first = await run('--json', path);
    const swapped = { first: 'second', second: 'first', tie: 'tie' } as const;
    const turned = lines.toReversed().map((line, at) => {
      const [a = '', b = '', choice = 'tie'] = line.split(',');
      return at % 2 === 0 ? line : `${b},${a},${swapped[choice as 'first' | 'second' | 'tie']}`;
    });
    write('order.csv', [heading, ...turned].join('\n'));
    expect(await run('--json', path)).toEqual(first);
  });

  it('in a terminal as a table', async () => {
    const { answers } = await run(write('table.csv', [heading, ...csvOfCounts([['Fern', 'Moss', 3, 1]])].join('\n')));
    // Two items, 3 wins to 1: difference log 3.
    expect(answers.join('\n')).toBe(
      [
        'item  ability  standard error',
        'Fern    0.549           0.577',
        'Moss   -0.549           0.577',
        'log nu none: no ties, log likelihood -2.249',
      ].join('\n'),
    );
  });
});
