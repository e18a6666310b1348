import { and, eq, gt, isNull, or } from 'drizzle-orm';
import type { Db } from '../open';
import { link } from '../schema/devices';
import { homeLink } from '../schema/devices';

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
  const same = and(
    eq(link.kind, row.kind),
    isNull(link.usedAt),
    row.seatId === null ? isNull(link.seatId) : eq(link.seatId, row.seatId),
  );
  db.delete(link).where(same).run();
  db.insert(link).values(row).run();
}

/** What a link or code is for, without using it up. */
export function findLink(db: Db, tokenHash: string) {
  return db.select({ kind: link.kind, seatId: link.seatId }).from(link).where(eq(link.tokenHash, tokenHash)).get();
}

/** Uses a link or code up (BL9: it dies at first use) and says what it was for; undefined when unknown, used or out of time. */
export function takeLink(db: Db, tokenHash: string, at: number) {
  return db
    .update(link)
    .set({ usedAt: at })
    .where(and(eq(link.tokenHash, tokenHash), isNull(link.usedAt), or(isNull(link.expiresAt), gt(link.expiresAt, at))))
    .returning({ kind: link.kind, seatId: link.seatId })
    .get();
}

/** A seat that has just been taken is taken: its other unused links and codes die. */
export function dropSeatLinks(db: Db, seatId: string): void {
  db.delete(link)
    .where(and(eq(link.seatId, seatId), isNull(link.usedAt)))
    .run();
}

/** Which puppy's note a home's link reads; undefined when unknown or ended. */
export function findHomeLink(db: Db, tokenHash: string) {
  return db
    .select({
      evaluationId: homeLink.evaluationId,
      puppyId: homeLink.puppyId,
      contact: homeLink.contact,
      photoId: homeLink.photoId,
    })
    .from(homeLink)
    .where(and(eq(homeLink.tokenHash, tokenHash), isNull(homeLink.endedAt)))
    .get();
}

/** The puppies of an evaluation whose home has a link, with what goes along. */
export function listHomeLinks(db: Db, evaluationId: string) {
  const open = and(eq(homeLink.evaluationId, evaluationId), isNull(homeLink.endedAt));
  return db
    .select({ puppyId: homeLink.puppyId, contact: homeLink.contact, photoId: homeLink.photoId })
    .from(homeLink)
    .where(open)
    .orderBy(homeLink.puppyId)
    .all();
}

type Home = { readonly evaluationId: string; readonly puppyId: string; readonly at: number };

type NewHomeLink = { readonly tokenHash: string; readonly contact: string; readonly photoId: string | null };

/** A puppy's home has one link: a fresh one (null for none) ends the one before. */
export function saveHomeLink(db: Db, { evaluationId, puppyId, at }: Home, link: NewHomeLink | null): void {
  const same = and(eq(homeLink.evaluationId, evaluationId), eq(homeLink.puppyId, puppyId), isNull(homeLink.endedAt));
  db.update(homeLink).set({ endedAt: at }).where(same).run();
  if (link)
    db.insert(homeLink)
      .values({ ...link, evaluationId, puppyId, createdAt: at })
      .run();
}
