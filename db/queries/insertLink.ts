import { and, eq, isNull } from 'drizzle-orm';
import type { Db } from '../open';
import { link } from '../schema';

type NewLink = {
  readonly tokenHash: string;
  readonly kind: 'owner' | 'seat' | 'code' | 'further';
  readonly seatId: string | null;
  readonly createdAt: number;
  /** Left out for a link, which lasts until it is used or replaced. */
  readonly expiresAt?: number;
};

/** A fresh link or code for the owner or a seat; earlier unused ones of its kind for the same die. */
export function insertLink(db: Db, row: NewLink): void {
  const same = and(eq(link.kind, row.kind), isNull(link.usedAt), row.seatId === null ? isNull(link.seatId) : eq(link.seatId, row.seatId));
  db.delete(link).where(same).run();
  db.insert(link).values(row).run();
}
