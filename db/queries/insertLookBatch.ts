import { count, eq } from 'drizzle-orm';
import type { Db } from '../open';
import { look, lookBatch } from '../schemaAfterReveal';

type NewLook = { readonly id: string; readonly firstPuppyId: string; readonly secondPuppyId: string; readonly firstOnLeft: boolean; readonly repeat: boolean };
type NewBatch = { readonly id: string; readonly evaluationId: string; readonly slotId: string; readonly medium: 'table' | 'photographs'; readonly openedAt: number; readonly looks: readonly NewLook[] };

/** Opens a batch with its looks fixed (BL8). */
export function insertLookBatch(db: Db, { looks, ...row }: NewBatch): void {
  const position = db.select({ n: count() }).from(lookBatch).where(eq(lookBatch.evaluationId, row.evaluationId)).get()?.n ?? 0;
  db.insert(lookBatch).values({ ...row, position, state: 'open' }).run();
  looks.forEach((one, place) =>
    db.insert(look).values({ ...one, batchId: row.id, position: place, firstOnLeft: one.firstOnLeft ? 1 : 0, repeat: one.repeat ? 1 : 0 }).run(),
  );
}
