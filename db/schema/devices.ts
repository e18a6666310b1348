import { sql } from 'drizzle-orm';
import { check, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { flag } from './columns';
import { evaluation } from './evaluations';
import { puppy } from './litters';
import { seat } from './seats';

/**
 * What lets a device in, once: the owner's link, a seat's link, a seat's spoken code, or a code by which a further device
 * may ask its first (a null seat is the owner's). Only hashes of the secrets are kept.
 */
export const link = sqliteTable('link', {
  tokenHash: text('token_hash').primaryKey(),
  kind: text('kind', { enum: ['owner', 'seat', 'code', 'further'] }).notNull(),
  seatId: text('seat_id').references(() => seat.id, { onDelete: 'restrict' }),
  createdAt: integer('created_at').notNull(),
  usedAt: integer('used_at'),
  /** Null for a link, which lasts until it is used or replaced. */
  expiresAt: integer('expires_at'),
});

export const device = sqliteTable('device', {
  id: text('id').primaryKey(),
  tokenHash: text('token_hash').notNull().unique(),
  owner: flag('owner'),
  seatId: text('seat_id').references(() => seat.id, { onDelete: 'restrict' }),
  createdAt: integer('created_at').notNull(),
  revokedAt: integer('revoked_at'),
  /** 1 for the devices of the seat's first link and those they let in; one more with each reissue (BL9). */
  generation: integer('generation').notNull().default(1),
  cameBy: text('came_by', { enum: ['link', 'code', 'approval', 'passphrase', 'recovery'] })
    .notNull()
    .default('link'),
  /** When it was last heard of, to the minute. */
  seenAt: integer('seen_at').notNull().default(0),
});

/** A further device that asks to be let in by the first (BL9); a null seat is the owner's. Its secret becomes its session once approved. */
export const deviceRequest = sqliteTable('device_request', {
  id: text('id').primaryKey(),
  tokenHash: text('token_hash').notNull().unique(),
  seatId: text('seat_id').references(() => seat.id, { onDelete: 'restrict' }),
  /** Shown on both devices, to be compared by the person who holds both. */
  digits: text('digits').notNull(),
  askedAt: integer('asked_at').notNull(),
  expiresAt: integer('expires_at').notNull(),
  answeredAt: integer('answered_at'),
  approved: integer('approved'),
});

/** The owner's passphrase as scrypt made it, with the parameters it was made with: one row or none. */
export const passphrase = sqliteTable(
  'passphrase',
  { id: integer('id').primaryKey(), kept: text('kept').notNull(), setAt: integer('set_at').notNull() },
  (t) => [check('passphrase_one', sql`${t.id} = 1`)],
);

/** For the owner who forgot it; each works once, and only hashes are kept. */
export const recoveryCode = sqliteTable('recovery_code', {
  codeHash: text('code_hash').primaryKey(),
  createdAt: integer('created_at').notNull(),
  usedAt: integer('used_at'),
});

/** The link of one puppy's home: it reads that puppy's note, as often as it likes, until it is ended. */
export const homeLink = sqliteTable('home_link', {
  tokenHash: text('token_hash').primaryKey(),
  evaluationId: text('evaluation_id')
    .notNull()
    .references(() => evaluation.id, { onDelete: 'restrict' }),
  puppyId: text('puppy_id')
    .notNull()
    .references(() => puppy.id, { onDelete: 'restrict' }),
  createdAt: integer('created_at').notNull(),
  endedAt: integer('ended_at'),
  /** How the home reaches the breeder, where she gives it. */
  contact: text('contact').notNull().default(''),
  /** The one picture that goes along; one that was removed since is left out. */
  photoId: text('photo_id'),
});
