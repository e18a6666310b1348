import type { Sheet } from '#lib/sheet/sheet';
import type { Db } from '../open';
import { sheet } from '../schema';

/** Creates a sheet, or changes an own one. */
export function saveSheet(db: Db, row: { readonly id: string; readonly builtIn: boolean; readonly body: Sheet; readonly createdAt: number }): void {
  const body = JSON.stringify(row.body);
  db.insert(sheet)
    .values({ id: row.id, builtIn: row.builtIn ? 1 : 0, body, createdAt: row.createdAt })
    .onConflictDoUpdate({ target: sheet.id, set: { body } })
    .run();
}
