import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseScores } from '#server/csv/parseScores';

const options = { scale: { low: 1, high: 7 }, twoSided: new Set(['neck']), maxCharacters: 10_000 };
const heading = 'puppy,evaluator,criterion,score';
const read = (text: string) => parseScores(text, options);
const body = (...lines: string[]) => read([heading, ...lines].join('\n'));
const cells = (text: string) => {
  const answer = read(text);
  if ('error' in answer) throw new Error(JSON.stringify(answer.error));
  return answer.rows.map(({ puppy, evaluator, criterion, score }) => [puppy, evaluator, criterion, score]);
};

describe('a file of scores is refused', () => {
  it.each([
    ['', 1, 1, 'The file is empty.'],
    ['\ufeff\n\n', 1, 1, 'The file is empty.'],
    [heading, 2, 1, 'There is no line under the heading.'],
    [
      'puppy,evaluator,criterion,mark\nFern,A,neck,1',
      1,
      4,
      'There is no column "mark": the heading is puppy,evaluator,criterion,score.',
    ],
    [
      'puppy,evaluator,criterion,score,note\nFern,A,neck,1,x',
      1,
      5,
      'There is no column "note": the heading is puppy,evaluator,criterion,score.',
    ],
    [
      'puppy,evaluator,score\nFern,A,1',
      1,
      4,
      'The column "criterion" is missing: the heading is puppy,evaluator,criterion,score.',
    ],
    [
      'puppy,puppy,evaluator,criterion,score\nFern,Fern,A,neck,1',
      1,
      2,
      'The column "puppy" comes twice: the heading is puppy,evaluator,criterion,score.',
    ],
  ])('for its heading: %j', (text, line, column, message) => {
    expect(read(text)).toEqual({ error: { line, column, message, more: text.includes('mark') ? 1 : 0 } });
  });

  it('for a semicolon in place of a comma, by the name it then reads', () => {
    const answer = read('puppy;evaluator;criterion;score\nFern;A;coat;4');
    expect(answer).toMatchObject({ error: { line: 1, column: 1, more: 4 } });
  });

  it.each([
    ['Fern,A,coat,8', 4, 'The score 8 is off the scale 1..7.'],
    ['Fern,A,coat,0.99', 4, 'The score 0.99 is off the scale 1..7.'],
    ['Fern,A,neck,-4', 4, 'The score -4 is off the scale -3..3.'],
    ['Fern,A,neck,7', 4, 'The score 7 is off the scale -3..3.'],
    ['Fern,A,coat,NaN', 4, 'The score "NaN" is not a plain decimal number.'],
    ['Fern,A,coat,0x5', 4, 'The score "0x5" is not a plain decimal number.'],
    ['Fern,A,coat,∞', 4, 'The score "∞" is not a plain decimal number.'],
    ['Fern,A,coat,Infinity', 4, 'The score "Infinity" is not a plain decimal number.'],
    ['Fern,A,coat,1e0', 4, 'The score "1e0" is not a plain decimal number.'],
    ['Fern,A,coat,"4,5"', 4, 'The score "4,5" is not a plain decimal number.'],
    ['Fern,A,coat,.', 4, 'The score "." is not a plain decimal number.'],
    ['Fern,A,coat,5 points', 4, 'The score "5 points" is not a plain decimal number.'],
    [',A,coat,5', 1, 'The puppy is blank.'],
    ['Fern,  ,coat,5', 2, 'The evaluator is blank.'],
    ['Fern,A,"",5', 3, 'The criterion is blank.'],
    ['"Fe\nrn",A,coat,5', 1, 'The puppy holds a line break or a control character.'],
    [`${'F'.repeat(201)},A,coat,5`, 1, 'The puppy is longer than 200 characters.'],
    ['Fern,A,coat', 4, 'This line has 3 fields; the heading has 4.'],
    ['Fern,A,coat,5,6', 5, 'This line has 5 fields; the heading has 4.'],
    ['Fern,A,"coat,5', 3, 'A quotation mark is opened here and never closed.'],
    [
      'Fe"rn,A,coat,5',
      1,
      'A quotation mark stands inside a field: put the whole field in quotation marks and double the one inside.',
    ],
    [
      '"Fe"rn,A,coat,5',
      1,
      'A quotation mark stands inside a field: put the whole field in quotation marks and double the one inside.',
    ],
  ])('for %j, with line and column', (line, column, message) => {
    expect(body('Moss,A,coat,5', '', line)).toEqual({ error: { line: 4, column, message, more: 0 } });
  });

  it('for a cell that comes twice, blank or not', () => {
    const message = 'The same puppy, evaluator and criterion stand on line 2 already.';
    expect(body('Fern,A,coat,5', 'Fern,A,coat,5')).toEqual({ error: { line: 3, column: 4, message, more: 0 } });
    expect(body('Fern,A,coat,5', 'Fern ,A,coat,')).toEqual({ error: { line: 3, column: 4, message, more: 0 } });
    // The same name in composed and decomposed letters is one puppy.
    expect(body('Fl\u00e9,A,coat,5', 'Fle\u0301,A,coat,4')).toEqual({
      error: { line: 3, column: 4, message, more: 0 },
    });
  });

  it('with its first fault in reading order and the count of the others, and nothing of it is accepted', () => {
    const answer = body(
      'Fern,A,coat,5',
      'Moss,A,coat,9',
      ',A,coat,x',
      'Fern,A,coat,5',
      'Sedge,A,coat',
      'Sorrel,A,"coat,5',
    );
    expect(answer).toEqual({ error: { line: 3, column: 4, message: 'The score 9 is off the scale 1..7.', more: 5 } });
  });

  it('above the size given', () => {
    expect(parseScores(`${heading}\nFern,A,coat,5`, { ...options, maxCharacters: 44 })).toEqual({
      error: { line: 1, column: 1, message: 'The file is too large: 45 characters; the limit is 44.', more: 0 },
    });
    expect(parseScores(`${heading}\nFern,A,coat,5`, { ...options, maxCharacters: 45 })).toMatchObject({
      rows: [{ score: 5 }],
    });
  });
});

describe('a file of scores is read', () => {
  it('with decimals, blanks, signed degrees and where each stood', () => {
    const answer = body('Fern,A,coat,4.5', 'Fern,B,coat,', 'Fern,A,neck,-3', 'Fern,B,neck,-0', 'Moss,A,coat,+7.');
    expect(answer).toEqual({
      rows: [
        { puppy: 'Fern', evaluator: 'A', criterion: 'coat', score: 4.5 },
        { puppy: 'Fern', evaluator: 'B', criterion: 'coat', score: null },
        { puppy: 'Fern', evaluator: 'A', criterion: 'neck', score: -3 },
        { puppy: 'Fern', evaluator: 'B', criterion: 'neck', score: 0 },
        { puppy: 'Moss', evaluator: 'A', criterion: 'coat', score: 7 },
      ].map((row, place) => ({ ...row, line: place + 2, columns: { puppy: 1, evaluator: 2, criterion: 3, score: 4 } })),
    });
  });

  it('the same whatever its line endings, byte order mark, blank lines, spaces, quotation marks and order of columns', () => {
    const expected = [
      ['Fern', 'A', 'coat', 5],
      ['Moss, the small', 'A', 'coat', null],
    ];
    expect(cells(`\ufeff${heading}\r\nFern,A,coat,5\r\n"Moss, the small",A,coat,\r\n`)).toEqual(expected);
    expect(cells(`${heading}\rFern,A,coat,5\r"Moss, the small",A,coat,`)).toEqual(expected);
    expect(cells(`${heading}\r\n\n Fern , A ,coat, 5 \n,,,\r\n\n"Moss, the small",A,coat,""\n`)).toEqual(expected);
    expect(cells('score,criterion,evaluator,puppy\n5,coat,A,Fern\n,coat,A,"Moss, the small"')).toEqual(expected);
  });

  it('names of any kind, none of them special', () => {
    expect(cells(`${heading}\n__proto__,constructor,"say ""coat""",1`)).toEqual([
      ['__proto__', 'constructor', 'say "coat"', 1],
    ]);
  });

  it('and gives back every cell that was written', () => {
    const name = fc
      .string({ minLength: 1, maxLength: 12, unit: 'grapheme' })
      .map((text) => text.normalize('NFC').trim())
      .filter((text) => /^\P{Cc}+$/u.test(text));
    const score = fc.option(fc.integer({ min: 100, max: 700 }).map((hundredths) => hundredths / 100));
    const row = fc.tuple(name, name, name, score);
    const quoted = (value: string) => `"${value.replaceAll('"', '""')}"`;
    fc.assert(
      fc.property(
        fc.uniqueArray(row, { minLength: 1, maxLength: 20, selector: (cell) => JSON.stringify(cell.slice(0, 3)) }),
        (rows) => {
          const text = rows.map(
            ([puppy, evaluator, criterion, value]) =>
              `${quoted(puppy)},${quoted(evaluator)},${quoted(criterion)},${value ?? ''}`,
          );
          const answer = parseScores([heading, ...text].join('\n'), { ...options, twoSided: new Set() });
          expect(
            'rows' in answer && answer.rows.map((cell) => [cell.puppy, cell.evaluator, cell.criterion, cell.score]),
          ).toEqual(rows);
        },
      ),
    );
  });
});
