import { count, eq } from 'drizzle-orm';
import type { PuppyInput } from '#lib/contract/litter';
import type { Db } from '../open';
import { puppy } from '../schema';

/** Creates a puppy at the end of its litter, or changes what was typed about it. */
export function savePuppy(db: Db, row: { readonly id: string; readonly litterId: string; readonly input: PuppyInput }): void {
  const existing = db.select({ n: count() }).from(puppy).where(eq(puppy.litterId, row.litterId)).get();
  db.insert(puppy)
    .values({ id: row.id, litterId: row.litterId, position: existing?.n ?? 0, ...row.input })
    .onConflictDoUpdate({ target: puppy.id, set: row.input })
    .run();
}
