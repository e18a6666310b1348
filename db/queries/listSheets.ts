import { desc } from 'drizzle-orm';
import { sheetSchema, type Sheet } from '#lib/sheet/sheet';
import type { Db } from '../open';
import { sheet } from '../schema';

export type SheetRow = { readonly id: string; readonly builtIn: boolean; readonly sheet: Sheet };

/** All sheets, built-in ones first. */
export function listSheets(db: Db): SheetRow[] {
  return db
    .select()
    .from(sheet)
    .orderBy(desc(sheet.builtIn), sheet.createdAt, sheet.id)
    .all()
    .map((row) => ({ id: row.id, builtIn: row.builtIn === 1, sheet: sheetSchema.parse(JSON.parse(row.body)) }));
}
