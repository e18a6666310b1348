import { inTransaction } from '#db/inTransaction';
import { saveSheet } from '#db/queries/saveSheet';
import { fullSheet } from '#lib/sheet/fullSheet';
import { shortSheet } from '#lib/sheet/shortSheet';
import type { Runtime } from '../runtime';

/** Fixed ids, so that a built-in sheet is the same sheet in every data file. */
export const builtInSheetIds = { full: 'f0'.repeat(16), short: '5e'.repeat(16) } as const;

/** Puts the built-in sheets into a data file, or brings them up to date; evaluations under way keep their frozen copy. */
export function seedSheets({ db, clock }: Pick<Runtime, 'db' | 'clock'>): void {
  inTransaction(db, () => {
    saveSheet(db, { id: builtInSheetIds.full, builtIn: true, body: fullSheet, createdAt: clock.now() });
    saveSheet(db, { id: builtInSheetIds.short, builtIn: true, body: shortSheet, createdAt: clock.now() });
  });
}
