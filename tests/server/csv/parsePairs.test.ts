import { describe, expect, it } from 'vitest';
import { parsePairs } from '#server/csv/parsePairs';

const body = (...lines: string[]) => parsePairs(['first,second,choice', ...lines].join('\n'), 1_000);

describe('a file of pairs', () => {
  it.each([
    ['Fern,Moss,third', 3, 'The choice is first, second or tie.'],
    ['Fern,Moss,', 3, 'The choice is first, second or tie.'],
    ['Fern,Fern,first', 2, 'An item cannot be compared with itself.'],
    [',Moss,first', 1, 'The first item is blank.'],
    ['Fern,,first', 2, 'The second item is blank.'],
    ['Fern,Moss', 3, 'This line has 2 fields; the heading has 3.'],
  ])('is refused for %j, with line and column', (line, column, message) => {
    expect(body('Fern,Moss,tie', line)).toEqual({ error: { line: 3, column, message, more: 0 } });
  });

  it('is refused for a foreign column, no lines, and size', () => {
    expect(parsePairs('first,second,winner\na,b,first', 1_000)).toMatchObject({
      error: { line: 1, column: 3, more: 1 },
    });
    expect(body()).toMatchObject({ error: { line: 2, column: 1 } });
    expect(parsePairs('first,second,choice\na,b,first', 10)).toMatchObject({
      error: { message: 'The file is too large: 29 characters; the limit is 10.' },
    });
  });

  it('is read, repeats and all', () => {
    const rows = [
      { first: 'Fern', second: 'Moss', choice: 'first' },
      { first: 'Fern', second: 'Moss', choice: 'tie' },
      { first: 'Moss', second: 'Fern', choice: 'second' },
    ];
    expect(body(...rows.map(({ first, second, choice }) => `${first},${second},${choice}`))).toEqual({ rows });
  });
});
