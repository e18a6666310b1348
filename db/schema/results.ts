import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { round } from './rounds';

/** What stood when a round was revealed: written once, in the transaction that reveals. */
export const snapshot = sqliteTable('snapshot', {
  id: text('id').primaryKey(),
  roundId: text('round_id')
    .notNull()
    .unique()
    .references(() => round.id, { onDelete: 'restrict' }),
  body: text('body').notNull(),
  revealedAt: integer('revealed_at').notNull(),
});

/** Computed from snapshots and closed looks only; `key` is the hash of what it was computed from. */
export const result = sqliteTable('result', {
  key: text('key').primaryKey(),
  body: text('body').notNull(),
  computedAt: integer('computed_at').notNull(),
});
