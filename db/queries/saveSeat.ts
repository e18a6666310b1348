import { max, eq } from 'drizzle-orm';
import type { SeatInput } from '#lib/contract/setup';
import type { Db } from '../open';
import { seat } from '../schema';

/** Adds a seat at the end of the panel, or changes what was typed about it. */
export function saveSeat(db: Db, row: { readonly id: string; readonly evaluationId: string; readonly owner: boolean; readonly input: SeatInput }): void {
  const last = db.select({ position: max(seat.position) }).from(seat).where(eq(seat.evaluationId, row.evaluationId)).get();
  const { label, kind, interest } = row.input;
  const set = { label, kind, interest, leads: row.input.leads ? 1 : 0, picks: row.input.picks ? 1 : 0, organises: row.input.organises ? 1 : 0, reads: row.input.reads ? 1 : 0 };
  db.insert(seat)
    .values({ id: row.id, evaluationId: row.evaluationId, position: (last?.position ?? -1) + 1, owner: row.owner ? 1 : 0, ...set })
    .onConflictDoUpdate({ target: seat.id, set })
    .run();
}
