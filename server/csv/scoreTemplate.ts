import { stringify } from 'csv-stringify/sync';
import { scoreColumns } from './parseScores';

type Blank = { readonly puppies: readonly string[]; readonly evaluator: string; readonly criteria: readonly string[] };

/** A file as the import of typed scores reads it, with every score left blank: one line a puppy and criterion, puppy by puppy. Safe in a spreadsheet. */
export function scoreTemplate({ puppies, evaluator, criteria }: Blank): string {
  const rows = puppies.flatMap((puppy) => criteria.map((criterion) => [puppy, evaluator, criterion, null]));
  return stringify([[...scoreColumns], ...rows], { bom: true, escape_formulas: true, record_delimiter: 'windows' });
}

/** A name as it was before a spreadsheet was kept from taking it for a formula. */
export function unescaped(name: string): string {
  return name.replace(/^'(?=[=+\-@\t\r\uff1d\uff0b\uff0d\uff20])/, '');
}
