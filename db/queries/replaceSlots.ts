import { eq } from 'drizzle-orm';
import type { SlotView } from '#lib/contract/evaluationView';
import type { Db } from '../open';
import { slot } from '../schema';

/** The pick order, in order. */
export function replaceSlots(db: Db, evaluationId: string, slots: readonly SlotView[]): void {
  db.delete(slot).where(eq(slot.evaluationId, evaluationId)).run();
  slots.forEach((one, position) => db.insert(slot).values({ ...one, evaluationId, position }).run());
}
