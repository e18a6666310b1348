import { CsvError as CsvSyntaxError, parse } from 'csv-parse/sync';
import { invariant } from '#lib/invariant';

type TableOptions<Name extends string> = { readonly names: readonly Name[]; readonly maxCharacters: number };

/** One field, trimmed and in Unicode's composed form, with where it stood. */
export type Field = { readonly text: string; readonly line: number; readonly column: number };
export type TableRow<Name extends string> = (name: Name) => Field;
type Table<Name extends string> = { readonly rows: readonly TableRow<Name>[]; readonly faults: readonly CsvFault[] };

type Line = { readonly fields: readonly string[]; readonly line: number };

/**
 * Reads comma-separated text (RFC 4180; a byte order mark, any line ending, blank lines and columns in any order are fine)
 * under a heading that must hold exactly `names`. Never throws on what a person may have typed: every fault is listed,
 * and a row with the wrong number of fields is listed and left out of `rows`.
 */
export function parseTable<Name extends string>(
  text: string,
  { names, maxCharacters }: TableOptions<Name>,
): Table<Name> {
  if (text.length > maxCharacters) {
    return refused(1, `The file is too large: ${text.length} characters; the limit is ${maxCharacters}.`);
  }
  const { lines, fault } = readLines(text);
  const [heading, ...body] = lines;
  if (!heading) return fault ? { rows: [], faults: [fault] } : refused(1, 'The file is empty.');
  const faults = headingFaults(heading, names);
  if (faults.length > 0) return { rows: [], faults };
  const places = new Map(names.map((name) => [name, heading.fields.indexOf(name)]));
  const whole = body.filter(({ fields }) => fields.length === names.length);
  const torn = body
    .filter(({ fields }) => fields.length !== names.length)
    .map((line) => countFault(line, names.length));
  return { rows: whole.map((line) => fieldsByName(line, places)), faults: fault ? [...torn, fault] : torn };
}

function refused(line: number, message: string): { rows: []; faults: CsvFault[] } {
  return { rows: [], faults: [{ line, column: 1, message }] };
}

/** The lines that hold anything, and the first breach of the format, after which nothing can be read. */
function readLines(text: string): { lines: Line[]; fault: CsvFault | null } {
  const lines: Line[] = [];
  try {
    parse(text, {
      bom: true,
      trim: true,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      on_record: (fields: string[], context) => {
        // The count stands at the record's last line; a field that spans lines moves the start up.
        lines.push({
          fields: fields.map((field) => field.normalize('NFC')),
          line: context.lines - lineBreaks(fields.join('')),
        });
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvSyntaxError)) throw error;
    const column: unknown = error['column'];
    return {
      lines,
      fault: {
        line: lineAfter(text, lines),
        column: typeof column === 'number' ? column + 1 : 1,
        message: quoteMessage(error),
      },
    };
  }
  return { lines, fault: null };
}

function lineBreaks(text: string): number {
  return text.split(/\r\n|\n|\r/).length - 1;
}

/** Where the first unread record starts: after the last one read and any blank lines. */
function lineAfter(text: string, read: readonly Line[]): number {
  const last = read.at(-1);
  const all = text.split(/\r\n|\n|\r/);
  let line = last ? last.line + lineBreaks(last.fields.join('')) + 1 : 1;
  while (line < all.length && /^[\s,]*$/.test(all[line - 1] ?? '')) line += 1;
  return line;
}

function quoteMessage(error: CsvSyntaxError): string {
  return error.code === 'CSV_QUOTE_NOT_CLOSED'
    ? 'A quotation mark is opened here and never closed.'
    : 'A quotation mark stands inside a field: put the whole field in quotation marks and double the one inside.';
}

function headingFaults<Name extends string>({ fields, line }: Line, names: readonly Name[]): CsvFault[] {
  const expected = `the heading is ${names.join(',')}`;
  const known: readonly string[] = names;
  const strange = fields.flatMap((field, place) => {
    if (!known.includes(field))
      return [{ line, column: place + 1, message: `There is no column "${field}": ${expected}.` }];
    if (fields.indexOf(field) < place)
      return [{ line, column: place + 1, message: `The column "${field}" comes twice: ${expected}.` }];
    return [];
  });
  const missing = names
    .filter((name) => !fields.includes(name))
    .map((name) => ({ line, column: fields.length + 1, message: `The column "${name}" is missing: ${expected}.` }));
  return [...strange, ...missing];
}

function countFault({ fields, line }: Line, expected: number): CsvFault {
  const message = `This line has ${fields.length} ${fields.length === 1 ? 'field' : 'fields'}; the heading has ${expected}.`;
  return { line, column: Math.min(fields.length, expected) + 1, message };
}

function fieldsByName<Name extends string>({ fields, line }: Line, places: ReadonlyMap<Name, number>): TableRow<Name> {
  return (name) => {
    const place = places.get(name);
    const text = place === undefined ? undefined : fields[place];
    invariant(place !== undefined && text !== undefined, `a whole line has a field ${name}`);
    return { text, line, column: place + 1 };
  };
}

/** One thing wrong with a file. `line` counts from 1 at the heading; `column` is the place of the field in its line, from 1. */
export type CsvFault = { readonly line: number; readonly column: number; readonly message: string };

/** Why a file was refused: its first fault, and how many more there are. */
export type CsvError = CsvFault & { readonly more: number };

/** The first of these faults in reading order, with the count of the rest; null when there are none. */
export function firstFault(faults: readonly CsvFault[]): CsvError | null {
  const [first] = [...faults].sort((a, b) => a.line - b.line || a.column - b.column);
  return first ? { ...first, more: faults.length - 1 } : null;
}

/** Bytes of a file as text. Anything but UTF-8 is refused with the line of its first foreign byte, never guessed at. */
export function decodeText(bytes: Uint8Array): { text: string } | { error: CsvError } {
  try {
    return { text: decode(bytes) };
  } catch {
    const message = 'The file is not UTF-8 text; save it as "CSV UTF-8".';
    return { error: { line: lineOfFirstFault(bytes), column: 1, message, more: 0 } };
  }
}

function decode(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
}

function lineOfFirstFault(bytes: Uint8Array): number {
  let [start, line] = [0, 1];
  for (;;) {
    const end = bytes.indexOf(10, start);
    try {
      decode(bytes.subarray(start, end === -1 ? bytes.length : end));
    } catch {
      return line;
    }
    if (end === -1) return line;
    [start, line] = [end + 1, line + 1];
  }
}
