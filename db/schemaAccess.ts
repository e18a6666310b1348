import { sql } from 'drizzle-orm';
import { check, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { evaluation, puppy, seat } from './schema';

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
  evaluationId: text('evaluation_id').notNull().references(() => evaluation.id, { onDelete: 'restrict' }),
  puppyId: text('puppy_id').notNull().references(() => puppy.id, { onDelete: 'restrict' }),
  createdAt: integer('created_at').notNull(),
  endedAt: integer('ended_at'),
});

/**
 * A person's words were removed from a seat: its label, its interest and what it wrote. Append-only; while `done` is 0, within
 * the removing transaction, the triggers of append-only tables let words of that evaluation be overwritten, and nothing else.
 */
export const removal = sqliteTable('removal', {
  seatId: text('seat_id').primaryKey().references(() => seat.id, { onDelete: 'restrict' }),
  at: integer('at').notNull(),
  done: integer('done').notNull().default(0),
});
