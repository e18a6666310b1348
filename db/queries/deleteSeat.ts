import { eq } from 'drizzle-orm';
import type { Db } from '../open';
import { link, seat } from '../schema';

/** Takes a seat nobody has joined from the panel, with its unused links. Foreign keys refuse it once anything hangs on it. */
export function deleteSeat(db: Db, id: string): void {
  db.delete(link).where(eq(link.seatId, id)).run();
  db.delete(seat).where(eq(seat.id, id)).run();
}
