import { eq } from 'drizzle-orm';
import { DomainError } from '#lib/errors';
import type { Db } from '../open';
import { seat } from '../schema';

/** Which evaluation a seat belongs to, and what it is called there. Throws not-found. */
export function getSeat(db: Db, id: string) {
  const row = db.select({ id: seat.id, label: seat.label, evaluationId: seat.evaluationId, owner: seat.owner }).from(seat).where(eq(seat.id, id)).get();
  if (!row) throw new DomainError('not-found');
  return { ...row, owner: row.owner === 1 };
}
