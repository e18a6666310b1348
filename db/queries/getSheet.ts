import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { listSheets, type SheetRow } from './listSheets';

/** Throws not-found. */
export function getSheet(db: Db, id: string): SheetRow {
  const found = listSheets(db).find((row) => row.id === id);
  if (!found) throw new DomainError('not-found');
  return found;
}
