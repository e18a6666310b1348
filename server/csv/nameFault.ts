import type { CsvFault } from './csvFault';
import type { Field } from './parseTable';

const nameLimit = 200;

/** What is wrong with a field that has to name something, if anything is. */
export function nameFault({ text, line, column }: Field, what: string): CsvFault | null {
  if (text === '') return { line, column, message: `The ${what} is blank.` };
  if (text.length > nameLimit) return { line, column, message: `The ${what} is longer than ${nameLimit} characters.` };
  if (/\p{Cc}/u.test(text)) return { line, column, message: `The ${what} holds a line break or a control character.` };
  return null;
}
