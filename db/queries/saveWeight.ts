import type { Db } from '../open';
import { weight } from '../schema';

/** One weighing a day; a second one the same day replaces the first. */
export function saveWeight(db: Db, row: { readonly puppyId: string; readonly weighedOn: string; readonly grams: number }): void {
  db.insert(weight)
    .values(row)
    .onConflictDoUpdate({ target: [weight.puppyId, weight.weighedOn], set: { grams: row.grams } })
    .run();
}
