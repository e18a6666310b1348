import { desc } from 'drizzle-orm';
import { DomainError } from '#lib/errors';
import { type Sheet, sheetSchema } from '#lib/sheet/sheet';
import type { Db } from '../open';
import { sheet } from '../schema/sheets';

/** Throws not-found. */
export function getSheet(db: Db, id: string): SheetRow {
  const found = listSheets(db).find((row) => row.id === id);
  if (!found) throw new DomainError('not-found');
  return found;
}

type SheetRow = { readonly id: string; readonly builtIn: boolean; readonly sheet: Sheet };

/** All sheets, built-in ones first. */
export function listSheets(db: Db): SheetRow[] {
  return db
    .select()
    .from(sheet)
    .orderBy(desc(sheet.builtIn), sheet.createdAt, sheet.id)
    .all()
    .map((row) => ({ id: row.id, builtIn: row.builtIn === 1, sheet: sheetSchema.parse(JSON.parse(row.body)) }));
}

/** Creates a sheet, or changes an own one. */
export function saveSheet(
  db: Db,
  row: { readonly id: string; readonly builtIn: boolean; readonly body: Sheet; readonly createdAt: number },
): void {
  const body = JSON.stringify(row.body);
  db.insert(sheet)
    .values({ id: row.id, builtIn: row.builtIn ? 1 : 0, body, createdAt: row.createdAt })
    .onConflictDoUpdate({ target: sheet.id, set: { body } })
    .run();
}

const parsed = new WeakMap<Db, Map<string, Sheet>>();
/** Evaluations under way at once, each with its frozen sheet; beyond that the oldest goes. */
const most = 50;

/** A stored sheet; the same text is parsed once, because every write of a score asks for it. */
export function parseSheet(db: Db, body: string): Sheet {
  const known = parsed.get(db) ?? new Map<string, Sheet>();
  parsed.set(db, known);
  const sheet = known.get(body) ?? sheetSchema.parse(JSON.parse(body));
  known.delete(body);
  known.set(body, sheet);
  for (const oldest of known.keys()) {
    if (known.size <= most) break;
    known.delete(oldest);
  }
  return sheet;
}
