import type { LitterInput } from '#lib/contract/litter';
import type { Db } from '../open';
import { litter } from '../schema';

/** Creates a litter, or changes what was typed about it. */
export function saveLitter(db: Db, row: LitterInput & { readonly id: string; readonly createdAt: number }): void {
  const { name, breed, dam, sire, whelpedOn } = row;
  db.insert(litter).values(row).onConflictDoUpdate({ target: litter.id, set: { name, breed, dam, sire, whelpedOn } }).run();
}
