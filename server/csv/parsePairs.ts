import { type CsvError, type CsvFault, type Field, firstFault, parseTable } from './parseTable';
import { nameFault } from './parseScores';

const choices = ['first', 'second', 'tie'] as const;
export type PairRow = { readonly first: string; readonly second: string; readonly choice: (typeof choices)[number] };

/** Reads `first,second,choice` (choice: first, second or tie); the same pair may come any number of times. All or nothing. */
export function parsePairs(text: string, maxCharacters: number): { rows: PairRow[] } | { error: CsvError } {
  const table = parseTable(text, { names: ['first', 'second', 'choice'], maxCharacters });
  const faults: CsvFault[] = [...table.faults];
  const rows: PairRow[] = [];
  for (const row of table.rows) {
    const [first, second, choice] = [row('first'), row('second'), row('choice')];
    const known = choices.find((one) => one === choice.text);
    const found = [nameFault(first, 'first item'), nameFault(second, 'second item'), selfFault(first, second)].filter(
      (fault) => fault !== null,
    );
    if (!known)
      found.push({ line: choice.line, column: choice.column, message: 'The choice is first, second or tie.' });
    faults.push(...found);
    if (known) rows.push({ first: first.text, second: second.text, choice: known });
  }
  if (rows.length === 0 && faults.length === 0)
    faults.push({ line: 2, column: 1, message: 'There is no line under the heading.' });
  const error = firstFault(faults);
  return error ? { error } : { rows };
}

function selfFault(first: Field, second: Field): CsvFault | null {
  if (first.text === '' || first.text !== second.text) return null;
  return { line: second.line, column: second.column, message: 'An item cannot be compared with itself.' };
}
