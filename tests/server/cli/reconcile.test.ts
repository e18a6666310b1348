import { mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ICC_FORMS } from '#lib/stats/intraclassCorrelation';
import type { PanelReport } from '#server/cli/panelReport';
import { reconcileCommand } from '#server/cli/reconcile';
import { readReferenceCase } from '#tests/lib/stats/referenceCase';
import { csvOfTable, recordedOutput, scoreFiles } from './scoreFiles';

const write = scoreFiles();
const heading = 'puppy,evaluator,criterion,score';

async function run(...args: string[]) {
  const output = recordedOutput();
  const status = await reconcileCommand(args, output);
  return { status, answers: output.answers, complaints: output.complaints };
}

async function report(...args: string[]): Promise<PanelReport & { file: string }> {
  const { status, answers, complaints } = await run('--json', ...args);
  expect({ status, complaints, answers: answers.length }).toEqual({ status: 0, complaints: [], answers: 1 });
  return JSON.parse(answers[0] ?? '') as PanelReport & { file: string };
}

const tableOf = (id: string) => readReferenceCase(id).data['values'] as (number | null)[][];
const value = (coefficient: unknown) => (coefficient as { value: number }).value;

/** Three criteria, neck two-sided, every fourth cell or so missing; the first evaluator is a point below the others. */
const litter = ['Fern', 'Moss', 'Sedge', 'Sorrel'].flatMap((puppy, p) =>
  ['breeder', 'mentor', 'photographer'].flatMap((evaluator, e) =>
    ['coat', 'neck', 'ribs'].map((criterion, c) => {
      const missing = (p * 5 + e * 3 + c * 7) % 4 === 3;
      const score = criterion === 'neck' ? ((p + e) % 5) - 2 : 5 - p + ((p * e + c) % 3) - (e === 0 ? 1 : 0);
      return `${puppy},${evaluator},${criterion},${missing ? '' : score}`;
    }),
  ),
);
const litterCsv = [heading, ...litter].join('\n');

describe('reconcile refuses', () => {
  it.each([
    [[], 'Name at least one file.'],
    [['--jsn', 'a.csv'], 'There is no option --jsn. Options: --scale, --two-sided, --cost, --keep, --weights, --json.'],
    [['a.csv', '--scale'], 'The option --scale needs a value.'],
    [['--scale', '7..1', 'a.csv'], '--scale wants whole numbers LOW..HIGH, at most 100 steps apart, such as 1..7.'],
  ])('arguments it cannot follow, in one line and with status 2: %j', async (args, fault) => {
    expect(await run(...args)).toEqual({ status: 2, answers: [], complaints: [fault] });
  });

  it('a bad file with its first fault and nothing else, and goes on with the others', async () => {
    const bad = write('bad.csv', `${heading}\nFern,A,coat,5\nMoss,A,coat,9\nSedge,A,coat,x\n`);
    const [first, last] = [
      write(
        'first.csv',
        csvOfTable([
          [5, 6],
          [2, 3],
        ]),
      ),
      write(
        'last.csv',
        csvOfTable([
          [1, 2],
          [3, 4],
        ]),
      ),
    ];
    const { status, answers, complaints } = await run('--json', first, bad, last);
    expect({ status, complaints }).toEqual({ status: 1, complaints: [] });
    expect(answers.map((line) => (JSON.parse(line) as { file: string }).file)).toEqual([first, bad, last]);
    expect(answers[1]).toBe(
      JSON.stringify({
        file: bad,
        error: { line: 3, column: 4, message: 'The score 9 is off the scale 1..7.', more: 1 },
      }),
    );
    expect(Object.keys(JSON.parse(answers[2] ?? '') as object)).toContain('merit');
  });

  it('the same in a terminal, on the stream for complaints', async () => {
    const bad = write('bad-too.csv', `${heading}\nFern,A,coat,5\nMoss,A,coat,9\nSedge,A,coat,x\n`);
    expect(await run(bad)).toEqual({
      status: 1,
      answers: [],
      complaints: [`${bad}:3:4: The score 9 is off the scale 1..7. (and 1 more)`],
    });
  });

  it.each([
    ['missing.csv', null, 'There is no such file.'],
    ['blank.csv', `${heading}\nFern,A,coat,\n`, 'No line holds a score.'],
    ['weightless.csv', `${heading}\nFern,A,coat,5\n`, 'Every criterion of this file has the weight 0.'],
  ])('a file as a whole: %s', async (name, content, message) => {
    const path = content === null ? join(dirname(write('x.csv', '')), name) : write(name, content);
    const { status, answers } = await run('--json', '--weights', 'coat=0', path);
    expect({ status, answers }).toEqual({
      status: 1,
      answers: [JSON.stringify({ file: path, error: { line: 0, column: 0, message, more: 0 } })],
    });
  });

  it('a folder, and text that is not UTF-8', async () => {
    const folder = join(dirname(write('x.csv', '')), 'folder');
    mkdirSync(folder);
    const latin = write('latin.csv', Buffer.from(`${heading}\nFl\u00e9,A,coat,5\n`, 'latin1'));
    const { status, answers } = await run('--json', folder, latin);
    expect(status).toBe(1);
    expect(answers.map((line) => (JSON.parse(line) as { error: object }).error)).toEqual([
      { line: 0, column: 0, message: 'This is a folder, not a file.', more: 0 },
      { line: 2, column: 1, message: 'The file is not UTF-8 text; save it as "CSV UTF-8".', more: 0 },
    ]);
  });
});

describe('reconcile answers', () => {
  it('alpha-krippendorff-4x12: the published nominal, ordinal and interval alpha', async () => {
    // Krippendorff, Computing Krippendorff's Alpha-Reliability, 2011: 4 observers, 12 units, gaps.
    const found = await report(
      '--scale',
      '1..5',
      write('krippendorff.csv', csvOfTable(tableOf('alpha-krippendorff-4x12'))),
    );
    expect(found.panel).toEqual({ puppies: 12, evaluators: 4, criteria: 1, scores: 41, missing: 7 });
    const { alpha } = found.agreement.byCriterion['c'] ?? expect.unreachable();
    expect(value(alpha.nominal)).toBeCloseTo(0.743, 3);
    expect(value(alpha.ordinal)).toBeCloseTo(0.815, 3);
    expect(value(alpha.interval)).toBeCloseTo(0.849, 3);
    for (const { low, high, value: at } of Object.values(alpha) as { low: number; high: number; value: number }[]) {
      expect(low).toBeLessThan(at);
      expect(high).toBeGreaterThan(at);
    }
  });

  it('icc-shrout-fleiss-1979: the six published intraclass correlations, per criterion and over the sheet', async () => {
    // Shrout & Fleiss, Psychological Bulletin 86, 1979, table 4.
    const found = await report('--scale', '1..10', write('shrout.csv', csvOfTable(tableOf('icc-shrout-fleiss-1979'))));
    const rounded = (icc: object) => ICC_FORMS.map((form) => value((icc as Record<string, unknown>)[form]).toFixed(2));
    expect(rounded(found.agreement.byCriterion['c']?.icc ?? {})).toEqual([
      '0.17',
      '0.29',
      '0.71',
      '0.44',
      '0.62',
      '0.91',
    ]);
    expect(rounded(found.agreement.sheet.icc)).toEqual(['0.17', '0.29', '0.71', '0.44', '0.62', '0.91']);
    expect(value(found.agreement.sheet.alpha)).toBeCloseTo(value(found.agreement.byCriterion['c']?.alpha.interval), 12);
    expect(found.merit.map(({ puppy, mean }) => [puppy, mean])).toEqual([
      ['p5', 7.5],
      ['p3', 6.5],
      ['p1', 6],
      ['p6', 4.75],
      ['p4', 4],
      ['p2', 3],
    ]);
    // One criterion: puppy x evaluator cannot be told from the residual. Mean squares of the paper: 11.24, 32.49, 1.02.
    expect(Object.keys(found.components)).toEqual(['puppy', 'evaluator', 'residual']);
    expect(found.components).toMatchObject({
      puppy: expect.closeTo((11.2417 - 1.0194) / 4, 3) as number,
      residual: expect.closeTo(1.0194, 3) as number,
    });
    // ICC(C,k) and ICC(A,k) are the relative and absolute coefficients of a one-criterion design (Brennan 2001).
    expect([value(found.reliability.relative).toFixed(2), value(found.reliability.absolute).toFixed(2)]).toEqual([
      '0.91',
      '0.62',
    ]);
    expect(found.reliability.study.map(({ evaluators }) => evaluators)).toEqual([1, 2, 3, 4, 5, 6, 7]);
  });

  it('gwet-ac-4x12, kappa-light-expsy, ranks-wine-rating: AC1, AC2, Fleiss, Light and W as the reference packages give them', async () => {
    const gwet = await report('--scale', '1..5', write('gwet.csv', csvOfTable(tableOf('gwet-ac-4x12'))));
    const light = await report('--scale', '1..4', write('light.csv', csvOfTable(tableOf('kappa-light-expsy'))));
    const wine = await report('--scale', '1..5', write('wine.csv', csvOfTable(tableOf('ranks-wine-rating'))));
    const found = gwet.agreement.byCriterion['c'] ?? expect.unreachable();
    expect(value(found.acOne)).toBeCloseTo(0.775444068126995, 9);
    expect(value(found.acTwo)).toBeCloseTo(0.9140007235516047, 9);
    expect(value(found.fleissKappa)).toBeCloseTo(0.7611692754224112, 9);
    expect(value(found.percent)).toBeCloseTo(9 / 11, 9);
    expect(value(light.agreement.byCriterion['c']?.lightKappa)).toBeCloseTo(0.7571177523173144, 9);
    expect(value(wine.agreement.byCriterion['c']?.kendallW)).toBeCloseTo(0.5113482384823848, 9);
  });

  it('ST2: the same bytes whatever the order of the lines and columns', async () => {
    const options = ['--json', '--two-sided', 'neck', '--keep', '2', '--weights', 'coat=2'];
    const path = write('order.csv', litterCsv);
    const first = await run(...options, path);
    write('order.csv', [heading, ...litter.toReversed()].join('\r\n'));
    expect(await run(...options, path)).toEqual(first);
    write(
      'order.csv',
      [
        'score,criterion,evaluator,puppy',
        ...litter
          .map((line, at) => litter[(at * 7) % 36] ?? line)
          .map((line) => line.split(',').toReversed().join(',')),
      ].join('\n'),
    );
    expect(await run(...options, path)).toEqual(first);
    expect(first.status).toBe(0);
  });

  it('ST2: nothing of one file reaches the next', async () => {
    const [one, two] = [
      write(
        'one.csv',
        csvOfTable([
          [1, 2],
          [3, 4],
          [6, 5],
        ]),
      ),
      write(
        'two.csv',
        csvOfTable([
          [7, 2],
          [3, 3],
          [1, 5],
        ]),
      ),
    ];
    const together = await run('--json', one, two, one);
    expect(together.answers).toEqual([
      ...(await run('--json', one)).answers,
      ...(await run('--json', two)).answers,
      ...(await run('--json', one)).answers,
    ]);
  });

  it('with two-sided criteria by their quality, weights, and one slot a keep', async () => {
    const found = await report(
      '--two-sided',
      'neck',
      '--weights',
      'coat=3,ribs=0',
      '--keep',
      '3',
      write(
        'two-sided.csv',
        [
          heading,
          'Fern,A,coat,6',
          'Fern,A,neck,-1',
          'Fern,B,coat,4',
          'Fern,B,neck,2',
          'Moss,A,coat,2',
          'Moss,A,neck,0',
          'Moss,B,coat,2',
          'Moss,B,neck,0',
          'Moss,B,ribs,1',
        ].join('\n'),
      ),
    );
    // Quality 7 - 2|d|: Fern (3·6 + 5 + 3·4 + 3) / 8, Moss (3·2 + 7 + 3·2 + 7) / 8.
    expect(Object.fromEntries(found.merit.map(({ puppy, mean }) => [puppy, mean]))).toEqual({ Fern: 4.75, Moss: 3.25 });
    expect(found.panel).toEqual({ puppies: 2, evaluators: 2, criteria: 3, scores: 9, missing: 3 });
    for (const { slot, candidates } of found.closeCalls) {
      expect(slot).toBeLessThanOrEqual(2);
      expect(candidates.reduce((sum, { probability }) => sum + probability, 0)).toBeGreaterThanOrEqual(0.9 - 1e-9);
    }
    for (const { ranks } of found.merit) expect(ranks.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
    expect((found.better['Fern']?.['Moss'] ?? 0) + (found.better['Moss']?.['Fern'] ?? 0)).toBeCloseTo(1, 9);
  });

  it('with a close call where two puppies are alike, and none where one stands out', async () => {
    const alike = await report(
      write(
        'alike.csv',
        csvOfTable([
          [5, 5, 4],
          [5, 4, 5],
          [1, 2, 1],
        ]),
      ),
    );
    const clear = await report(
      write(
        'clear.csv',
        csvOfTable([
          [7, 7, 7, 6],
          [2, 3, 2, 2],
          [1, 2, 1, 1],
        ]),
      ),
    );
    expect(alike.closeCalls.map(({ slot, candidates }) => [slot, candidates.map(({ puppy }) => puppy).sort()])).toEqual(
      [[1, ['p1', 'p2']]],
    );
    expect(clear.closeCalls).toEqual([]);
    expect(clear.merit[0]?.puppy).toBe('p1');
  });

  it('names of any kind as they are, and says what an option named in vain', async () => {
    const path = write(
      'names.csv',
      `${heading}\n__proto__,constructor,toString,4\nhasOwnProperty,constructor,toString,5\n`,
    );
    const { status, answers, complaints } = await run('--json', '--two-sided', 'neck', '--weights', 'cot=2', path);
    expect(status).toBe(0);
    expect(complaints).toEqual([
      `${path}: there is no criterion "neck", which --two-sided names.`,
      `${path}: there is no criterion "cot", which --weights names.`,
    ]);
    const found = JSON.parse(answers[0] ?? '') as PanelReport;
    expect(found.merit.map(({ puppy }) => puppy).sort()).toEqual(['__proto__', 'hasOwnProperty']);
    expect(
      Object.entries(found.better)
        .flatMap(([puppy, over]) => Object.keys(over).map((other) => [puppy, other]))
        .sort(),
    ).toEqual([
      ['__proto__', 'hasOwnProperty'],
      ['hasOwnProperty', '__proto__'],
    ]);
    expect(Object.keys(found.agreement.byCriterion)).toEqual(['toString']);
  });

  it('in a terminal with every section, and reasons where there is no figure', async () => {
    const path = write('table.csv', csvOfTable([[5], [4]]));
    const { status, answers } = await run(path);
    expect(status).toBe(0);
    const text = answers.join('\n');
    expect(text).toContain('puppies 2, evaluators 1, criteria 1, scores 2, missing 0');
    for (const part of [
      'Merit',
      'Close calls',
      'Evaluators',
      'Components',
      'Reliability',
      'Agreement over the sheet',
      'Agreement on c',
    ])
      expect(text).toContain(`\n${part}`);
    expect(text).toMatch(/kendallW +one rater/);
    expect(text).not.toMatch(/NaN|undefined|null/);
  });
});
